import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { exact, PEACEFUL, range, recordWith, resident, situationWith, swallower, TANK } from '../../tests/support/scene.js';
import { libraryOf } from '../stock/library.js';
import { plan, type Planned } from './plan.js';

const planned = (more: Partial<Situation>, records: readonly SpeciesRecord[]): Planned => plan(situationWith(more), libraryOf(records));

const kin = (id: string, group: string, more: Partial<SpeciesRecord> = {}): SpeciesRecord =>
  recordWith(id, { kinGroup: { value: group, basis: 'practice' }, ...more });

const claims = (litres: number, ownKind = 0): Partial<SpeciesRecord> => ({
  conduct: {
    pugnacity: { ...PEACEFUL, ownKind },
    rockClaim: exact(litres, 'L'),
    wayOfLiving: { value: 'perches-on-rock', basis: 'practice' },
    company: { kind: 'any', basis: 'practice' },
  },
});

const rock = (litres: number): Situation['tank'] => ({ ...TANK, rock: { envelope: { value: litres, unit: 'L' } } });

const scavenger: Partial<SpeciesRecord> = { form: 'crab', introduction: { value: 'scavenger', basis: 'practice' } };

describe('what has to be in', () => {
  // Claims of 20 L each, of which three tenths weigh on the others: 20 + 6 + 6 are more than 1.5 times 20 L, 20 + 6 are not.
  const three = ['a', 'b', 'c'].map((letter) => kin(`${letter}us-primus`, letter, claims(20)));
  const wishesOf = (musts: string, priorities: readonly number[] = [1, 1, 9]): NonNullable<Situation['wishes']> =>
    ['a', 'b', 'c'].map((letter, at) => ({
      species: `${letter}us-primus`,
      priority: priorities[at] ?? 1,
      ...(musts.includes(letter) ? { must: true } : {}),
    }));

  it('is in, whatever else is wanted more', () => {
    const chosen = (musts: string): string =>
      planned({ tank: rock(20), wishes: wishesOf(musts) }, three)
        .chosen.map(({ species }) => species[0])
        .join('');
    expect(chosen('')).toBe('ac');
    expect(chosen('ab')).toBe('ab');
    expect(chosen('b')).toBe('bc');
  });

  it('is not kept out for what it would grow to if it went in before the tank is old enough for it', () => {
    const slow = kin('aus-primus', 'a', {
      ...claims(4.5),
      size: { entry: exact(2, 'cm') },
      growth: { asymptoticLength: exact(6.1, 'cm'), rate: exact(0.57, '/a') },
      needs: { ...kin('aus-primus', 'a').needs, tankAge: exact(252, 'd') },
    });
    const result = planned({ date: '2027-03-01', tank: { ...rock(2.1), cycledOn: '2027-03-04' }, wishes: wishesOf('a').slice(0, 1) }, [
      slow,
    ]);
    expect(result.impossible).toBeUndefined();
    // 252 days after the tank was cycled; on the first day the claim within three years would be over one and a half times the rock.
    expect(result.introductions.map(({ date }) => date)).toEqual(['2027-11-11']);
  });

  it('is told where it cannot be together: the fewest, and why', () => {
    const result = planned({ tank: rock(20), wishes: wishesOf('abc') }, three);
    expect(result).toMatchObject({ chosen: [], introductions: [], worth: { priority: 0, animals: 0 }, alternatives: [], ifChanged: [] });
    expect(result.impossible).toMatchObject({ species: ['cus-primus', 'aus-primus', 'bus-primus'], minimal: true });
    expect(result.impossible?.because.map(({ rule }) => rule)).toEqual(['rock-crowding', 'rock-crowding', 'rock-crowding']);
    const wolf = swallower('lupus-primus', { kinGroup: { value: 'w', basis: 'practice' } });
    const two = planned(
      {
        wishes: [
          { species: 'lupus-primus', must: true, length: { value: 40, unit: 'cm' } },
          { species: 'aus-primus', must: true },
          { species: 'bus-primus', must: true },
        ],
      },
      [wolf, ...three],
    ).impossible?.species;
    expect(two).toHaveLength(2);
    expect(two).toContain('lupus-primus');
  });

  it('is told where it cannot be in this tank at all', () => {
    const hard = recordWith('durus-primus', { needs: { ...recordWith('x-x').needs, careTier: { value: 3, basis: 'practice' } } });
    const wishes = [
      { species: 'durus-primus', must: true },
      { species: 'aus-primus', must: true },
    ];
    expect(planned({ keeper: { careTier: 1 }, wishes }, [hard, ...three]).impossible).toMatchObject({
      species: ['durus-primus'],
      because: [{ rule: 'care-tier' }],
      minimal: true,
    });
  });
});

describe('priorities', () => {
  const four = ['a', 'b', 'c', 'd'].map((letter) => kin(`${letter}us-primus`, letter, claims(letter === 'a' ? 28 : 6)));
  const wishes = four.map(({ id }, at) => ({ species: id, priority: [5, 4, 4, 4][at] ?? 1 }));
  const chosen = (priorities: 'add-up' | 'strict'): string[] =>
    planned({ tank: rock(20), wishes, settings: { priorities } }, four).chosen.map(({ species }) => species);

  it('add up, or one that is higher outweighs all that are lower', () => {
    // The first claims 28 of the 30 L that would do, and three tenths of 6 L for each other: one fits beside it, two do not.
    expect(chosen('add-up')).toEqual(['bus-primus', 'cus-primus', 'dus-primus']);
    expect(chosen('strict')).toEqual(['aus-primus', 'bus-primus']);
  });
});

describe('the holding tank', () => {
  const [crab, one, two] = [kin('mus-primus', 'm', scavenger), kin('aus-primus', 'a'), kin('bus-primus', 'b')];
  const days = (more: Partial<Situation>): unknown[] =>
    planned({ wishes: [crab, one, two].map(({ id }) => ({ species: id })), ...more }, [crab, one, two]).introductions.map(
      ({ date, animals, reasons }) => [date, animals[0]?.species, animals[0]?.purchasedOn, reasons[0]?.message],
    );

  it('takes one lot at a time, and what is not watched goes in meanwhile', () => {
    expect(days({ tank: { ...TANK, holdingTank: { lots: 1 } } })).toEqual([
      ['2027-03-01', 'mus-primus', undefined, 'order.fromToday'],
      ['2027-03-31', 'aus-primus', '2027-03-01', 'order.oneLot'],
      ['2027-04-30', 'bus-primus', '2027-03-31', 'order.oneLot'],
    ]);
    expect(days({ tank: { ...TANK, holdingTank: { lots: 2 } } }).map((day) => (day as string[])[0])).toEqual([
      '2027-03-01',
      '2027-04-26',
      '2027-05-24',
    ]);
  });

  it('is waited for where all is watched, and not asked for where the rule is off', () => {
    const wishes = [{ species: 'aus-primus' }];
    expect(days({ wishes, tank: { ...TANK, holdingTank: { lots: 1 } } })).toEqual([
      ['2027-03-31', 'aus-primus', '2027-03-01', 'order.watchedFirst'],
    ]);
    expect(days({ wishes, tank: { ...TANK, holdingTank: { lots: 1 } }, settings: { off: ['quarantine'] } })).toEqual([
      ['2027-03-01', 'aus-primus', undefined, 'order.fromToday'],
    ]);
  });
});

describe('waiting', () => {
  it('for a day that the keeper names', () => {
    const pax = recordWith('pax-primus');
    const { introductions } = planned({ wishes: [{ species: 'pax-primus' }], settings: { notBefore: '2027-06-01' } }, [pax]);
    expect(introductions.map(({ date, reasons }) => [date, reasons[0]?.message])).toEqual([['2027-06-01', 'order.notBefore']]);
  });

  it('for a tank that is old enough, after what need not wait', () => {
    const anemone = kin('flos-primus', 'f', { form: 'anemone' });
    const { introductions } = planned(
      { tank: { ...TANK, cycledOn: '2027-02-01' }, wishes: [{ species: 'flos-primus' }, { species: 'pax-primus' }] },
      [anemone, kin('pax-primus', 'p')],
    );
    expect(introductions.map(({ date, animals, reasons }) => [date, animals[0]?.species, reasons[0]?.message])).toEqual([
      ['2027-03-01', 'pax-primus', 'order.fromToday'],
      ['2027-07-31', 'flos-primus', 'order.oldEnough'],
    ]);
  });
});

describe('why a wish is left out', () => {
  it('names the fewest of the chosen with which it cannot be, and what would let it in', () => {
    // Beside two of the three that are wanted more there would be rock for it, not beside all.
    const records = ['a', 'b', 'c', 'd'].map((letter) => kin(`${letter}us-primus`, letter, claims(20)));
    const wishes = records.map(({ id }, at) => ({ species: id, priority: at === 3 ? 1 : 5 }));
    const { chosen, leftOut } = planned({ tank: rock(22), wishes }, records);
    expect(chosen.map(({ species }) => species[0]).join('')).toBe('abc');
    expect(leftOut).toMatchObject([
      { species: 'dus-primus', conflict: { residents: [], minimal: true }, rather: [expect.any(String)], wouldNeedTogether: [] },
    ]);
    expect(leftOut[0]?.conflict.species).toHaveLength(3);
    const kinds = leftOut[0]?.wouldNeed.map(({ kind }) => kind);
    expect(kinds).toEqual(['more-rock', 'instead-of']);
  });

  it('tells what only helps together', () => {
    const hard = recordWith('magnus-primus', {
      size: { captiveAdult: exact(60, 'cm'), entry: exact(10, 'cm'), totalPerStandard: exact(1.25, '1') },
      needs: { ...recordWith('x-x').needs, careTier: { value: 3, basis: 'practice' } },
    });
    const { leftOut } = planned({ keeper: { careTier: 1 }, wishes: [{ species: 'magnus-primus' }] }, [hard]);
    expect(leftOut).toMatchObject([
      {
        wouldNeed: [],
        wouldNeedTogether: [
          { kind: 'larger-tank', lengthCm: 300, widthCm: 120, waterL: 2160 },
          { kind: 'more-experience', careTier: 3 },
        ],
      },
    ]);
  });

  it('tells of another number, another food, and a tank without copper', () => {
    const records = [
      kin('unus-primus', 'u', {
        conduct: { pugnacity: { ...PEACEFUL, ownKind: 4 }, rockClaim: exact(0, 'L'), company: { kind: 'solitary', basis: 'practice' } },
      }),
      kin('spongia-primus', 's', {
        feeding: { ...recordWith('x-x').feeding, specialist: { food: 'sponges', obligate: true, basis: 'practice' } },
      }),
      kin('mus-primus', 'm', scavenger),
    ];
    const { leftOut } = planned(
      {
        tank: { ...TANK, foods: ['algae'], copper: 'present' },
        wishes: [{ species: 'unus-primus', count: [2, 3] }, { species: 'spongia-primus' }, { species: 'mus-primus' }],
      },
      records,
    );
    expect(leftOut.map(({ species, wouldNeed }) => [species, wouldNeed])).toEqual([
      ['unus-primus', [{ kind: 'this-count', species: 'unus-primus', count: 1 }]],
      ['spongia-primus', [{ kind: 'food-offered', food: 'sponges' }]],
      ['mus-primus', [{ kind: 'without-copper' }]],
    ]);
  });

  it('tells the length at which it is safe', () => {
    const still = { growth: { asymptoticLength: exact(40, 'cm'), rate: exact(0.5, '/a') } };
    const wolf = swallower('lupus-primus', { ...still, kinGroup: { value: 'w', basis: 'practice' } });
    const prey = kin('pax-primus', 'p', {
      size: { captiveAdult: exact(30, 'cm'), entry: range(4, 6, 'cm'), totalPerStandard: exact(1.25, '1') },
      growth: { asymptoticLength: exact(30, 'cm'), rate: exact(0.5, '/a') },
    });
    const { leftOut } = planned(
      {
        tank: { ...TANK, length: { value: 400, unit: 'cm' }, width: { value: 120, unit: 'cm' }, water: { value: 4000, unit: 'L' } },
        residents: [resident('lupus-primus', 40, { id: 'wolf' })],
        wishes: [{ species: 'pax-primus' }],
      },
      [wolf, prey],
    );
    expect(leftOut).toMatchObject([{ conflict: { species: [], residents: ['wolf'], minimal: true } }]);
    expect(leftOut[0]?.wouldNeed.map(({ kind }) => kind)).toEqual(['this-length', 'without-resident']);
  });
});

describe('what else could be', () => {
  const wolf = swallower('lupus-primus', { kinGroup: { value: 'w', basis: 'practice' } });
  const [one, two] = [kin('aus-primus', 'a'), kin('bus-primus', 'b')];
  const length = { value: 40, unit: 'cm' as const };

  it('is told with what it gains and what it costs', () => {
    const { chosen, alternatives } = planned(
      { wishes: [{ species: 'lupus-primus', length, priority: 7 }, { species: 'aus-primus' }, { species: 'bus-primus' }] },
      [wolf, one, two],
    );
    expect(chosen.map(({ species }) => species)).toEqual(['aus-primus', 'bus-primus']);
    expect(alternatives).toEqual([
      {
        chosen: [{ species: 'lupus-primus', count: 1 }],
        worth: { priority: 7, animals: 1 },
        gains: ['lupus-primus'],
        losses: ['aus-primus', 'bus-primus'],
        proven: true,
      },
    ]);
  });

  it('counts the sets that are worth as much', () => {
    const trio = ['a', 'b', 'c'].map((letter) => kin(`${letter}us-primus`, letter, claims(20)));
    const { equals } = planned({ tank: rock(20), wishes: trio.map(({ id }) => ({ species: id })) }, trio);
    expect(equals).toEqual({ weighed: 3, all: true });
    expect(planned({ wishes: [{ species: 'aus-primus' }] }, [one]).equals).toEqual({ weighed: 1, all: true });
  });

  it('says what another home for a resident would let in', () => {
    const { ifChanged } = planned(
      {
        residents: [resident('lupus-primus', 40, { id: 'wolf' })],
        wishes: [{ species: 'aus-primus' }, { species: 'bus-primus', priority: 2 }],
      },
      [wolf, one, two],
    );
    expect(ifChanged).toEqual([
      {
        change: { kind: 'without-resident', animal: 'wolf' },
        worth: { priority: 7, animals: 2 },
        gains: ['aus-primus', 'bus-primus'],
        losses: [],
        proven: true,
      },
    ]);
  });

  it('says what laying the rock anew would let in', () => {
    // The holder keeps newcomers off the rock, and too little of it is left; laid anew nobody holds it yet.
    const holder = kin('custos-primus', 'c', {
      conduct: {
        pugnacity: { ...PEACEFUL, newcomers: 3 },
        rockClaim: exact(10, 'L'),
        wayOfLiving: { value: 'perches-on-rock', basis: 'practice' },
        company: { kind: 'any', basis: 'practice' },
      },
    });
    const { leftOut, ifChanged } = planned(
      {
        tank: rock(20),
        residents: [resident('custos-primus', 10, { id: 'custos', enteredOn: '2026-01-01' })],
        wishes: [{ species: 'aus-primus' }],
      },
      [holder, kin('aus-primus', 'a', claims(14))],
    );
    expect(leftOut.map(({ because }) => because.map(({ rule }) => rule))).toEqual([['lockout']]);
    expect(ifChanged.map(({ change }) => change.kind)).toContain('rock-relaid');
  });
});
