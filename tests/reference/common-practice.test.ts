/**
 * What experienced keepers go by. Common practice, no source: these tests hold the library to the rules of the trade, they do
 * not prove the rules.
 */
import { check, type Checked, dayOf, libraryOf, plan, rules, stockOf } from '@commensal/core';
import type { Finding, Introduction, Resident, Situation, SpeciesRecord } from '@commensal/schema';
import { situationProblems } from '@commensal/schema';
import { records, release, standIns } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { textOf } from '../support/repository.js';

const LIBRARY = libraryOf(records, standIns, release);
const recordOf = (id: string): SpeciesRecord => records.find((record) => record.id === id) as SpeciesRecord;

/** A tank of 600 litres that has room and rock enough not to get in the way, and an experienced keeper. */
function situationWith(more: Partial<Situation>): Situation {
  const situation: Situation = {
    $schema: 'https://commensal.example/schema/1.0/situation.schema.json',
    date: '2027-03-01',
    keeper: { careTier: 3 },
    tank: {
      water: { value: 600, unit: 'L' },
      length: { value: 220, unit: 'cm' },
      width: { value: 70, unit: 'cm' },
      rock: { mass: { value: 150, unit: 'kg' } },
      cycledOn: '2027-02-01',
      temperature: { low: 24.5, high: 26, unit: 'Cel' },
      salinity: { value: 34.5, unit: '1' },
    },
    ...more,
  };
  expect(situationProblems(situation)).toEqual([]);
  return situation;
}

function checked(more: Partial<Situation>): Checked {
  const { stock, problems } = stockOf(situationWith(more), LIBRARY);
  expect(problems).toEqual([]);
  return check(stock, rules);
}
const found = (more: Partial<Situation>, rule: string): readonly Finding[] =>
  checked(more).findings.filter((finding) => finding.rule === rule);
const told = (findings: readonly Finding[]): string[] => findings.map((finding) => `${finding.outcome} ${finding.level} ${finding.key}`);

const enter = (date: string, ...species: string[]): Introduction => ({ date, animals: species.map((id) => ({ species: id })) });

describe('common practice, no source: a family goes in on one day', () => {
  const [one, other] = ['centropyge-loriculus', 'centropyge-bispinosa'];

  it('dwarf angelfishes a month apart are warned of, on one day they are not', () => {
    expect(told(found({ introductions: [enter('2027-04-01', one), enter('2027-05-01', other)] }, 'family-batch'))).toEqual([
      `failed warning family-batch:earlier=${one},later=${other}`,
    ]);
    expect(found({ introductions: [enter('2027-04-01', one, other)] }, 'family-batch')).toEqual([]);
  });

  it('a newcomer to a settled relative is warned of, unless the rock is re-laid that day', () => {
    const residents: Resident[] = [{ id: 'settled', species: one, length: { value: 7, unit: 'cm' }, enteredOn: '2026-09-01' }];
    const introductions = [enter('2027-04-01', other)];
    expect(told(found({ residents, introductions }, 'family-batch'))).toEqual([
      `failed warning family-batch:earlier=settled,later=${other}`,
    ]);
    expect(found({ residents, introductions, events: [{ kind: 'rock-relaid', date: '2027-04-01' }] }, 'family-batch')).toEqual([]);
  });

  it('lines are drawn within a family: an anemonefish and a damselfish may come on different days', () => {
    expect(recordOf('amphiprion-ocellaris').taxon.family).toBe(recordOf('chromis-viridis').taxon.family);
    expect(
      found({ introductions: [enter('2027-04-01', 'amphiprion-ocellaris'), enter('2027-05-01', 'chromis-viridis')] }, 'family-batch'),
    ).toEqual([]);
  });
});

describe('common practice, no source: about a month between batches', () => {
  const apart = (date: string): string[] =>
    told(found({ introductions: [enter('2027-04-01', 'gramma-loreto'), enter(date, 'amphiprion-ocellaris')] }, 'entry-gap'));

  it('two weeks are too short, four weeks and more are not', () => {
    expect(apart('2027-04-15')).toEqual(['failed warning entry-gap:newcomer=amphiprion-ocellaris']);
    expect(apart('2027-04-29')).toEqual([]);
    expect(apart('2027-05-15')).toEqual([]);
  });
});

describe('common practice, no source: scavengers first, the peaceful before the pugnacious', () => {
  it('hermit crabs after a fish are remarked on, before it they are not', () => {
    const [crabs, fish] = ['clibanarius-tricolor', 'gramma-loreto'];
    expect(told(found({ introductions: [enter('2027-04-01', fish), enter('2027-05-01', crabs)] }, 'entry-order'))).toEqual([
      `failed note entry-order:scavenger=${crabs},before=${fish}`,
    ]);
    expect(found({ introductions: [enter('2027-04-01', crabs), enter('2027-05-01', fish)] }, 'entry-order')).toEqual([]);
  });

  it('a dottyback that kills newcomers goes in after a dartfish, not before', () => {
    const [fierce, shy] = ['pictichromis-paccagnellae', 'nemateleotris-magnifica'];
    expect(told(found({ introductions: [enter('2027-04-01', fierce), enter('2027-05-01', shy)] }, 'entry-order'))).toEqual([
      `failed warning entry-order:pugnacious=${fierce},after=${shy}`,
    ]);
    expect(found({ introductions: [enter('2027-04-01', shy), enter('2027-05-01', fierce)] }, 'entry-order')).toEqual([]);
  });
});

describe('common practice, no source: three care tiers', () => {
  const tierOf = (species: string, careTier: number, provisions: NonNullable<Situation['keeper']>['provisions'] = []): string[] =>
    told(found({ keeper: { careTier, provisions }, introductions: [enter('2027-04-01', species)] }, 'care-tier'));

  it('a novice keeps what most keepers succeed with', () => {
    expect(recordOf('amphiprion-ocellaris').needs?.careTier?.value).toBe(1);
    expect(tierOf('amphiprion-ocellaris', 1)).toEqual([]);
  });

  it('one tier above is a warning, two above an error', () => {
    expect(tierOf('paracanthurus-hepatus', 1)).toEqual(['failed warning care-tier:animal=paracanthurus-hepatus']);
    expect(tierOf('zanclus-cornutus', 1)).toEqual(['failed error care-tier:animal=zanclus-cornutus']);
  });

  it('the hardest tier without its provisions is an error for all but the most experienced', () => {
    const needed = recordOf('synchiropus-splendidus').needs?.provisions?.list ?? [];
    expect(needed.length).toBeGreaterThan(0);
    expect(tierOf('synchiropus-splendidus', 2)).toEqual(['failed error care-tier:animal=synchiropus-splendidus']);
    expect(tierOf('synchiropus-splendidus', 2, [...needed])).toEqual(['failed warning care-tier:animal=synchiropus-splendidus']);
    expect(tierOf('synchiropus-splendidus', 3)).toEqual([]);
  });
});

describe('common practice, no source: the smallest must be too big for the biggest mouth', () => {
  const lion = (cm: number): Resident => ({
    id: 'lion',
    species: 'pterois-volitans',
    length: { value: cm, unit: 'cm' },
    enteredOn: '2026-09-01',
  });
  const swallowed = (resident: Resident, species: string, cm: number): string[] =>
    told(
      found(
        { residents: [resident], introductions: [{ date: '2027-04-01', animals: [{ species, length: { value: cm, unit: 'cm' } }] }] },
        'gape',
      ),
    );

  it('a lionfish of 20 cm takes an anemonefish of 4 cm: an error', () => {
    expect(swallowed(lion(20), 'amphiprion-ocellaris', 4)).toContain('failed error gape:predator=lion,prey=amphiprion-ocellaris');
  });

  it('a lionfish of 20 cm does not take a tang of 18 cm, though at its full size there is a doubt', () => {
    expect(swallowed(lion(20), 'zebrasoma-flavescens', 18)).toEqual(['cantTell warning gape:predator=lion,prey=zebrasoma-flavescens']);
  });

  it('what is too big on its day may be small enough once the lionfish has grown', () => {
    const findings = found(
      {
        residents: [lion(8)],
        introductions: [{ date: '2027-04-01', animals: [{ species: 'amphiprion-ocellaris', length: { value: 6, unit: 'cm' } }] }],
      },
      'gape',
    );
    const [finding] = findings.filter(({ key }) => key === 'gape:predator=lion,prey=amphiprion-ocellaris');
    expect(finding?.outcome).toBe('failed');
    expect(dayOf(finding?.when ?? '')).toBeGreaterThan(dayOf('2027-04-01'));
  });

  it('two fishes that eat no fish and match in size pass', () => {
    const resident: Resident = { id: 'clown', species: 'amphiprion-ocellaris', length: { value: 6, unit: 'cm' } };
    expect(swallowed(resident, 'zebrasoma-flavescens', 8)).toEqual([]);
  });
});

describe('common practice, no source: a plan keeps to all of it', () => {
  const situation = JSON.parse(textOf('examples/lantern-quay.situation.json')) as Situation;
  const planned = plan(situation, LIBRARY);
  const batches = planned.introductions;

  it('the example is valid, and something of it works', () => {
    expect(situationProblems(situation)).toEqual([]);
    expect(batches.length).toBeGreaterThan(2);
    // "Four or five of them will really work": a shop counter's rule of thumb, taken widely.
    expect(planned.chosen.length).toBeGreaterThanOrEqual(3);
    expect(planned.chosen.length + planned.leftOut.length).toBe(situation.wishes?.length);
  });

  it('there are at least 28 days from batch to batch, and from the last resident', () => {
    const days = [
      ...(situation.residents ?? []).map((resident) => resident.enteredOn as string),
      ...batches.map((batch) => batch.date),
    ].map(dayOf);
    const gaps = days.slice(1).map((day, at) => day - (days[at] as number));
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(28);
  });

  it('scavengers go in before everything else', () => {
    const isScavenger = batches.flatMap((batch) =>
      batch.animals.map(({ species }) => recordOf(species).introduction?.value === 'scavenger'),
    );
    expect(isScavenger).toContain(true);
    expect(isScavenger).toEqual([...isScavenger].sort((one, other) => Number(other) - Number(one)));
  });

  it('no kin group is spread over days', () => {
    const daysOf = new Map<string, Set<string>>();
    for (const { date, animals } of batches) {
      for (const { species } of animals) {
        const record = recordOf(species);
        if (record.introduction?.value === 'scavenger') continue;
        const kin = record.kinGroup?.value ?? record.taxon.family;
        daysOf.set(kin, (daysOf.get(kin) ?? new Set()).add(date));
      }
    }
    expect(daysOf.size).toBeGreaterThan(1);
    expect([...daysOf].filter(([, days]) => days.size > 1)).toEqual([]);
  });

  it('nobody is chosen who is an error: too hard to keep, a mouthful, or a big mouth', () => {
    const chosen = new Set(batches.flatMap((batch) => batch.animals.map((animal) => animal.id)));
    const errors = planned.findings.filter(
      ({ outcome, level, subjects }) => outcome === 'failed' && level === 'error' && subjects.some(({ id }) => chosen.has(id)),
    );
    expect(errors).toEqual([]);
    expect(planned.leftOut.map((left) => left.species)).toEqual(expect.arrayContaining(['zanclus-cornutus', 'balistoides-conspicillum']));
  });
});
