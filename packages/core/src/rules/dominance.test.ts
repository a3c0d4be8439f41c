import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, exact, newcomer, onlyVerdict, PEACEFUL, recordWith, resident, situationWith, TANK } from '../../tests/support/scene.js';
import { dominance } from './dominance.js';

type Conduct = NonNullable<SpeciesRecord['conduct']>;

interface Traits {
  readonly others?: number | 'untold';
  readonly ownKind?: number;
  readonly claimL?: number | 'untold';
  readonly company?: Conduct['company'];
  readonly way?: NonNullable<Conduct['wayOfLiving']>['value'];
}

/** A fish that claims 4 L of rock at 10 cm and has done with growing. */
const fish = (
  id: string,
  { others = 0, ownKind = 0, claimL = 4, company, way = 'perches-on-rock' }: Traits = {},
  more: Partial<SpeciesRecord> = {},
): SpeciesRecord =>
  recordWith(id, {
    kinGroup: { value: id, basis: 'practice' },
    growth: { asymptoticLength: exact(1, 'cm'), rate: exact(0.5, '/a') },
    conduct: {
      ...(others === 'untold' ? {} : { pugnacity: { ...PEACEFUL, others, ownKind } }),
      ...(claimL === 'untold' ? {} : { rockClaim: exact(claimL, 'L') }),
      wayOfLiving: { value: way, basis: 'practice' },
      ...(company === undefined ? {} : { company }),
    },
    ...more,
  });

/** A ruler of 14 cm and a weaker one of 10 cm on 20 L of rock. */
const scene = (more: Partial<Situation> = {}): Situation =>
  situationWith({ residents: [resident('rex-unus', 14), resident('servus-unus', 10)], ...more });

const verdict = (records: readonly SpeciesRecord[], situation = scene()): string => onlyVerdict(checkBy(dominance, situation, records));

const weak = fish('servus-unus');

describe('dominance', () => {
  it.each([
    [0, 17, 'inapplicable'],
    [1, 17, 'passed'],
    [2, 16, 'passed'],
    [2, 17, 'failed warning dominance.harms'],
    [3, 17, 'failed warning dominance.harms'],
    [4, 17, 'failed error dominance.harms'],
    [4, 16, 'passed'],
  ])('a ruler that treats others with %i and holds %i of 20 L, beside one that wants 4: %s', (others, claimL, said) => {
    expect(verdict([fish('rex-unus', { others, claimL }), weak])).toBe(said);
  });

  it('one that has no firm hold rules nobody', () => {
    const records = [fish('rex-unus', { others: 3, claimL: 17 }), fish('servus-unus', { others: 3 })];
    expect(verdict(records, scene({ residents: [resident('rex-unus', 11), resident('servus-unus', 10)] }))).toBe('passed');
  });

  it('names the ruler, its victims and the next in rank, and says by how much', () => {
    const records = [fish('rex-unus', { others: 3, claimL: 17 }), weak, fish('cliens-unus', { others: 1 })];
    const situation = scene({ residents: [resident('rex-unus', 14), resident('servus-unus', 8), resident('cliens-unus', 10)] });
    const [finding] = checkBy(dominance, situation, records).findings;
    expect(finding).toMatchObject({
      key: 'dominance:ruler=rex-unus,victim=cliens-unus,victim=servus-unus',
      when: '2027-03-01',
      basis: 'practice',
      data: {
        wins: { value: 10 },
        rivals: { value: 2 },
        next: { animal: 'cliens-unus' },
        nextWins: { value: 5 },
        step: { keys: ['bites'] },
        target: { animal: 'cliens-unus' },
      },
    });
  });

  it('what others hold of the rock leaves less of a refuge', () => {
    const kinGroup = { value: 'kindred', basis: 'practice' } as const;
    const records = [
      fish('rex-unus', { others: 3, claimL: 10 }),
      fish('servus-unus', {}, { kinGroup }),
      fish('servus-secundus', { claimL: 10 }, { kinGroup }),
    ];
    const residents = [resident('rex-unus', 14), resident('servus-unus', 10)];
    expect(verdict(records, scene({ residents }))).toBe('passed');
    // Congeners: 0.8 of 10 L and 10 L of the ruler leave 2 of 20 L.
    const crowded = scene({ residents: [...residents, resident('servus-secundus', 10)] });
    expect(checkBy(dominance, crowded, records).findings[0]?.subjects).toEqual([
      { id: 'rex-unus', role: 'ruler' },
      { id: 'servus-secundus', role: 'victim' },
      { id: 'servus-unus', role: 'victim' },
    ]);
  });

  it('nor is there one where no shelter is left', () => {
    const records = [fish('rex-unus', { others: 2 }), fish('servus-unus', { way: 'holes-in-rock' })];
    expect(verdict(records, scene({ tank: { ...TANK, shelters: { holes: 1 } } }))).toBe('passed');
    const [finding] = checkBy(dominance, scene({ tank: { ...TANK, shelters: { holes: 0 } } }), records).findings;
    expect(finding).toMatchObject({ message: 'dominance.harms', data: { shelter: { keys: ['holes'] } } });
  });

  it('its own company is not its victim', () => {
    const pair = fish('rex-unus', { ownKind: 4, claimL: 19, company: { kind: 'pair', basis: 'practice' } });
    const residents = [resident('rex-unus', 14, { id: 'she' }), resident('rex-unus', 10, { id: 'he' })];
    expect(verdict([pair], situationWith({ residents }))).toBe('passed');
  });

  it('growth can make a ruler', () => {
    const growing = fish('rex-unus', { others: 3, claimL: 17 }, { growth: { asymptoticLength: exact(20, 'cm'), rate: exact(0.5, '/a') } });
    const [finding] = checkBy(dominance, scene({ residents: [resident('rex-unus', 5), resident('servus-unus', 10)] }), [
      growing,
      weak,
    ]).findings;
    expect(finding).toMatchObject({ when: '2030-03-01', data: { later: { keys: ['later'] } } });
  });

  it('looks from the day on which all are in', () => {
    const situation = scene({
      residents: [resident('rex-unus', 14)],
      introductions: [{ date: '2027-04-01', animals: [newcomer('servus-unus', 10)] }],
    });
    expect(checkBy(dominance, situation, [fish('rex-unus', { others: 3, claimL: 17 }), weak]).findings[0]?.when).toBe('2027-04-01');
  });

  it('one alone rules nobody', () => {
    expect(verdict([fish('rex-unus', { others: 4, claimL: 19 })], situationWith({ residents: [resident('rex-unus', 14)] }))).toBe(
      'nothing judged',
    );
  });
});

describe('dominance where something is not known', () => {
  it('one of unknown temper may rule', () => {
    const [finding] = checkBy(dominance, scene(), [fish('rex-unus', { others: 'untold', claimL: 17 }), weak]).findings;
    expect(finding).toMatchObject({
      outcome: 'cantTell',
      level: 'error',
      message: 'dominance.unknown',
      subjects: [
        { id: 'rex-unus', role: 'ruler' },
        { id: 'servus-unus', role: 'victim' },
      ],
      data: { missing: { keys: ['conduct.pugnacity'] } },
    });
  });

  it('which is no matter where there is refuge enough', () => {
    expect(verdict([fish('rex-unus', { others: 'untold', claimL: 1 }), weak])).toBe('inapplicable');
  });

  it('the length of the one that may rule', () => {
    const situation = scene({ residents: [{ id: 'it', species: 'rex-unus' }, resident('servus-unus', 10)] });
    expect(checkBy(dominance, situation, [fish('rex-unus', { others: 3, claimL: 17 }), weak]).findings[0]).toMatchObject({
      message: 'dominance.unknown',
      level: 'warning',
      data: { missing: { keys: ['length'] } },
    });
  });

  it('the rock, or a claim on it', () => {
    const { rock: _, ...bare } = TANK;
    const records = [fish('rex-unus', { others: 3, claimL: 10 }), weak];
    expect(checkBy(dominance, scene({ tank: bare }), records).findings[0]).toMatchObject({
      message: 'dominance.unknown',
      level: 'warning',
      data: { missing: { keys: ['tank.rock'] } },
    });
    expect(checkBy(dominance, scene(), [records[0]!, fish('servus-unus', { claimL: 'untold' })]).findings[0]).toMatchObject({
      message: 'dominance.unknown',
      data: { missing: { keys: ['conduct.rockClaim'] } },
    });
  });

  it('rough figures of the rock leave a doubt', () => {
    const rough = scene({ tank: { ...TANK, rock: { envelope: { value: 20, low: 12, high: 28, unit: 'L' } } } });
    expect(verdict([fish('rex-unus', { others: 3, claimL: 12 }), weak], rough)).toBe('cantTell warning dominance.mayHarm');
  });
});
