import type { Finding, Newcomer, Resident, Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import {
  checkBy,
  exact,
  newcomer,
  onlyVerdict,
  PEACEFUL,
  range,
  recordWith,
  resident,
  situationWith,
  TANK,
} from '../../tests/support/scene.js';
import { company } from './company.js';
import { rivalry } from './rivalry.js';

type Conduct = NonNullable<SpeciesRecord['conduct']>;

interface Traits {
  readonly ownKind?: number;
  readonly kin?: number;
  readonly others?: number;
  readonly newcomers?: number;
  readonly smaller?: number;
  readonly maleToMale?: number;
  readonly claimL?: number;
  readonly company?: Conduct['company'];
  readonly way?: NonNullable<Conduct['wayOfLiving']>['value'];
}

/** A fish that claims 4 L of rock at 10 cm and has done with growing. */
function fish(
  id: string,
  { claimL = 4, company: told, way = 'perches-on-rock', ...pugnacity }: Traits = {},
  more: Partial<SpeciesRecord> = {},
): SpeciesRecord {
  return recordWith(id, {
    kinGroup: { value: id, basis: 'practice' },
    growth: { asymptoticLength: exact(1, 'cm'), rate: exact(0.5, '/a') },
    conduct: {
      pugnacity: { ...PEACEFUL, ...pugnacity },
      rockClaim: exact(claimL, 'L'),
      wayOfLiving: { value: way, basis: 'practice' },
      ...(told === undefined ? {} : { company: told }),
    },
    ...more,
  });
}

const lived = (kind: NonNullable<Conduct['company']>['kind']): Conduct['company'] => ({ kind, basis: 'practice' });

/** Two residents on 20 L of rock; lengths that stay as they are. */
const two = (one: number, other: number, more: Partial<Situation> = {}): Situation =>
  situationWith({ residents: [resident('unus-primus', one), resident('vicinus-primus', other)], ...more });

const verdict = (records: readonly SpeciesRecord[], situation = two(10, 10)): string => onlyVerdict(checkBy(rivalry, situation, records));

const victim = fish('vicinus-primus', { others: 1 });

describe('rivalry between two species', () => {
  it.each([
    [1, 'passed'],
    [2, 'failed note rivalry.even'],
    [3, 'failed warning rivalry.even'],
    [4, 'failed error rivalry.even'],
  ])('as long as each other, one treating others with %i and the other standing its ground: %s', (others, said) => {
    // Steps of pugnacity count as length; the other is so much longer.
    expect(verdict([fish('unus-primus', { others }), victim], two(10, 10 * (1 + 0.05 * (others - 1))))).toBe(said);
  });

  it.each([
    [2, 4, 'passed'],
    [3, 4, 'passed'],
    [4, 4, 'failed warning rivalry.hunted'],
    [2, 19, 'failed note rivalry.noRefuge'],
    [3, 19, 'failed warning rivalry.noRefuge'],
    [4, 19, 'failed error rivalry.noRefuge'],
  ])('the stronger treats others with %i and claims %i of 20 L, the weaker 4: %s', (others, claimL, said) => {
    expect(verdict([fish('unus-primus', { others, claimL }), victim], two(10, 7))).toBe(said);
  });

  it('an aggressor that would lose is fended off', () => {
    expect(verdict([fish('unus-primus', { others: 3, claimL: 19 }), victim], two(7, 10))).toBe('passed');
  });

  it('one that does not stand its ground flees, and an even contest is none', () => {
    const meek = fish('vicinus-primus', { others: 0 });
    expect(verdict([fish('unus-primus', { others: 3 }), meek], two(10, 11.5))).toBe('passed');
    expect(verdict([fish('unus-primus', { others: 3, claimL: 19 }), meek], two(10, 11.5))).toBe('failed warning rivalry.noRefuge');
  });

  it('kin are looked out for as far as three times the claim', () => {
    const kinGroup = { value: 'kindred', basis: 'practice' } as const;
    const records = [fish('unus-primus', { kin: 3, claimL: 7 }, { kinGroup }), fish('vicinus-primus', { others: 1 }, { kinGroup })];
    expect(verdict(records, two(10, 7))).toBe('failed warning rivalry.noRefuge');
    expect(verdict(records, two(10, 7, { settings: { thresholds: { rivalry: { kinReach: 2 } } } }))).toBe('passed');
  });

  it('where the shelter it lives by is known to be lacking there is no refuge', () => {
    const records = [fish('unus-primus', { others: 3 }), fish('vicinus-primus', { way: 'caves-and-ledges' })];
    expect(verdict(records, two(10, 7, { tank: { ...TANK, shelters: { caves: 1 } } }))).toBe('passed');
    const [finding] = checkBy(rivalry, two(10, 7, { tank: { ...TANK, shelters: { caves: 0 } } }), records).findings;
    expect(finding).toMatchObject({ message: 'rivalry.noRefuge', level: 'warning', data: { shelter: { keys: ['caves'] } } });
  });

  it('tells who does what to whom, with both lengths and the rock', () => {
    const [finding] = checkBy(rivalry, two(10, 7), [fish('unus-primus', { others: 3, claimL: 19 }), victim]).findings;
    expect(finding).toMatchObject({
      key: 'rivalry:rival=unus-primus,rival=vicinus-primus',
      when: '2027-03-01',
      basis: 'practice',
      data: {
        aggressor: { animal: 'unus-primus' },
        target: { animal: 'vicinus-primus' },
        toward: { keys: ['other-animals'] },
        step: { keys: ['bites'] },
        aggressorLength: { value: 10, unit: 'cm' },
        targetLength: { value: 7, unit: 'cm' },
        wins: { value: 10, unit: '1' },
        left: { value: 1, unit: 'L' },
        wanted: { value: 2, unit: 'L' },
      },
    });
  });

  it('does not depend on who is named first', () => {
    const told = (ids: readonly [string, string]): Finding[] =>
      checkBy(
        rivalry,
        situationWith({ residents: [resident(ids[0], 10), resident(ids[1], 10)] }),
        ids.map((id) => fish(id, { others: 3 })),
      ).findings;
    expect(told(['unus-primus', 'vicinus-primus'])).toEqual(told(['vicinus-primus', 'unus-primus']));
  });

  it('the graver of what the two do to each other counts', () => {
    expect(verdict([fish('unus-primus', { others: 2, claimL: 19 }), fish('vicinus-primus', { others: 4, claimL: 19 })])).toBe(
      'failed error rivalry.noRefuge',
    );
  });

  it('shrimps and fishes do not contest, crabs and shrimps do', () => {
    const shrimp = fish('vicinus-primus', { others: 1 }, { form: 'shrimp' });
    expect(verdict([fish('unus-primus', { others: 4 }), shrimp])).toBe('nothing judged');
    expect(verdict([fish('unus-primus', { others: 4, claimL: 19 }, { form: 'crab' }), shrimp])).toBe('failed error rivalry.noRefuge');
  });
});

describe('rivalry in time', () => {
  const enters = (more: Partial<Newcomer> = {}, date = '2027-04-01'): Situation['introductions'] => [
    { date, animals: [newcomer('vicinus-primus', 10, more)] },
  ];
  const residents: Resident[] = [resident('unus-primus', 10)];

  it('what is done to newcomers is done when they come in, and not if the rock is re-laid', () => {
    const records = [fish('unus-primus', { newcomers: 3, claimL: 19 }), victim];
    const situation = situationWith({ residents, introductions: enters() });
    expect(onlyVerdict(checkBy(rivalry, situation, records))).toBe('failed warning rivalry.noRefuge');
    expect(checkBy(rivalry, situation, records).findings[0]).toMatchObject({
      when: '2027-04-01',
      data: { toward: { keys: ['newcomers'] } },
    });
    expect(
      verdict(records, situationWith({ residents, introductions: enters(), events: [{ kind: 'rock-relaid', date: '2027-04-01' }] })),
    ).toBe('passed');
    expect(verdict(records)).toBe('passed');
  });

  it('growth can bring it about later', () => {
    const growing = fish(
      'unus-primus',
      { others: 3, claimL: 19 },
      { growth: { asymptoticLength: exact(20, 'cm'), rate: exact(0.5, '/a') } },
    );
    const [finding] = checkBy(rivalry, two(5, 10), [growing, victim]).findings;
    expect(finding).toMatchObject({
      message: 'rivalry.noRefuge',
      when: '2030-03-01',
      data: { later: { keys: ['later'] }, aggressorLength: { value: 16.7 } },
    });
  });

  it('those that never meet do not fight', () => {
    const gone: Situation['events'] = [{ kind: 'animal-removed', animal: 'unus-primus', date: '2027-03-20' }];
    expect(verdict([fish('unus-primus', { others: 4 }), victim], situationWith({ residents, introductions: enters(), events: gone }))).toBe(
      'nothing judged',
    );
  });

  it('a divider keeps them apart while it stands, and whoever was behind it is no newcomer', () => {
    const records = [fish('unus-primus', { newcomers: 3, claimL: 19 }), victim];
    const divided = (until: string): Situation =>
      situationWith({ residents, introductions: enters(), events: [{ kind: 'tank-divided', date: '2027-04-01', until }] });
    expect(verdict(records, divided('2027-04-10'))).toBe('passed');
    expect(verdict([fish('unus-primus', { others: 4, claimL: 19 }), victim], divided('2031-01-01'))).toBe('passed');
    const [finding] = checkBy(rivalry, divided('2027-04-10'), [fish('unus-primus', { others: 3, claimL: 19 }), victim]).findings;
    expect(finding?.when).toBe('2027-04-11');
  });

  it('where one comes in beyond the last day looked at, they are judged on that day', () => {
    const situation = situationWith({ residents, introductions: enters({}, '2027-06-01'), settings: { horizonDays: 10 } });
    expect(checkBy(rivalry, situation, [fish('unus-primus', { others: 4, claimL: 19 }), victim]).findings[0]).toMatchObject({
      level: 'error',
      when: '2027-06-01',
    });
  });
});

describe('rivalry within a species', () => {
  const line = (count: number, more: Partial<Situation> = {}, told: Partial<Resident> = {}): Situation =>
    situationWith({ residents: [resident('unus-primus', 10, { count, ...told })], ...more });

  it.each([
    ['pair', 2],
    ['harem', 4],
    ['group', 8],
    ['any', 8],
  ] as const)('a %s of %i counts as one', (kind, count) => {
    expect(verdict([fish('unus-primus', { ownKind: 4, company: lived(kind) })], line(count))).toBe('inapplicable');
  });

  it('too many are the matter of company, unless it is switched off', () => {
    const records = [fish('unus-primus', { ownKind: 3, company: lived('solitary') })];
    const messages = (situation: Situation): string[] =>
      checkBy([company, rivalry] as never, situation, records).findings.map(({ message }) => message);
    expect(messages(line(2))).toEqual(['company.solitaryDoubled']);
    expect(messages(line(2, { settings: { off: ['company'] } }))).toEqual(['rivalry.amongThem']);
  });

  it('what bites its own kind and bears none is an error', () => {
    const off = { settings: { off: ['company'] } };
    expect(verdict([fish('unus-primus', { ownKind: 3, company: lived('solitary') })], line(2, off))).toBe('failed error rivalry.amongThem');
    expect(verdict([fish('unus-primus', { ownKind: 3, company: lived('pair') })], line(3, off))).toBe('failed warning rivalry.amongThem');
  });

  it('company does not speak of those that leave before the end', () => {
    const situation = situationWith({
      residents: [resident('unus-primus', 10, { id: 'stays' }), resident('unus-primus', 10, { id: 'leaves' })],
      events: [{ kind: 'animal-removed', animal: 'leaves', date: '2027-06-01' }],
    });
    expect(verdict([fish('unus-primus', { ownKind: 3, company: lived('solitary') })], situation)).toBe('failed error rivalry.even');
  });

  it('where the company it bears is not on record they are judged', () => {
    expect(verdict([fish('unus-primus', { ownKind: 3 })], line(2))).toBe('failed warning rivalry.amongThem');
    const [finding] = checkBy(rivalry, line(3), [fish('unus-primus', { ownKind: 4 })]).findings;
    expect(finding).toMatchObject({
      key: 'rivalry:rival=unus-primus',
      level: 'error',
      data: { count: { value: 3, unit: '1' }, toward: { keys: ['its-own-kind'] } },
    });
  });

  it('sexes that chase each other are judged apart', () => {
    const record = fish('unus-primus', { ownKind: 0, maleToMale: 2, company: lived('group') });
    expect(verdict([record], line(3, {}, { sex: 'male' }))).toBe('failed note rivalry.amongThem');
    expect(verdict([record], line(3, {}, { sex: 'female' }))).toBe('inapplicable');
  });
});

describe('rivalry where something is not known', () => {
  const silent = (id: string, record = fish(id)): SpeciesRecord => {
    const { pugnacity: _, ...conduct } = record.conduct ?? {};
    return { ...record, conduct };
  };

  it('an aggressor of unknown temper may do anything', () => {
    const [finding] = checkBy(rivalry, two(10, 10), [silent('unus-primus'), victim]).findings;
    expect(finding).toMatchObject({
      outcome: 'cantTell',
      level: 'error',
      message: 'rivalry.unknown',
      data: { missing: { keys: ['conduct.pugnacity'] } },
    });
  });

  it('unless it would lose against anything', () => {
    expect(verdict([silent('unus-primus'), victim], two(5, 10))).toBe('passed');
  });

  it('nor does it matter to one that is twice as long and leaves a refuge', () => {
    expect(verdict([fish('unus-primus', { others: 2 }), silent('vicinus-primus')], two(20, 10))).toBe('passed');
  });

  it('a length', () => {
    const records = [fish('unus-primus', { others: 3 }), victim];
    const unmeasured = situationWith({ residents: [{ id: 'it', species: 'unus-primus' }, resident('vicinus-primus', 10)] });
    const [finding] = checkBy(rivalry, unmeasured, records).findings;
    expect(finding).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'rivalry.unknown',
      data: { missing: { keys: ['length'] } },
    });
  });

  it('growth, from the day after the lengths were taken', () => {
    const records = [fish('unus-primus', { others: 3 }, { growth: {}, size: {} }), victim];
    const [finding] = checkBy(rivalry, two(5, 10), records).findings;
    expect(finding).toMatchObject({
      message: 'rivalry.unknown',
      when: '2030-03-01',
      data: { missing: { keys: ['growth.asymptoticLength'] } },
    });
  });

  it('the rock, or a claim on it', () => {
    const { rock: _, ...bare } = TANK;
    const records = [fish('unus-primus', { others: 3 }), victim];
    expect(checkBy(rivalry, two(10, 7, { tank: bare }), records).findings[0]).toMatchObject({
      message: 'rivalry.unknown',
      level: 'warning',
      data: { missing: { keys: ['tank.rock'] } },
    });
    const { rockClaim: __, ...conduct } = records[0]?.conduct ?? {};
    expect(checkBy(rivalry, two(10, 7), [{ ...records[0]!, conduct }, victim]).findings[0]).toMatchObject({
      message: 'rivalry.unknown',
      data: { missing: { keys: ['conduct.rockClaim'] } },
    });
  });

  it('rough figures of the rock leave a doubt about bites, none about chases', () => {
    const rough = { tank: { ...TANK, rock: { envelope: { ...range(12, 28, 'L'), value: 20 } } } };
    const { basis: _, ...envelope } = rough.tank.rock.envelope;
    const situation = two(10, 7, { tank: { ...TANK, rock: { envelope } } });
    expect(verdict([fish('unus-primus', { others: 3, claimL: 14 }), victim], situation)).toBe('cantTell warning rivalry.mayHarm');
    expect(verdict([fish('unus-primus', { others: 2, claimL: 14 }), victim], situation)).toBe('passed');
  });

  it('whether the other counts as smaller', () => {
    const record = fish('unus-primus', { smaller: 3, claimL: 19 });
    expect(verdict([record, victim], two(10, 6))).toBe('failed warning rivalry.noRefuge');
    expect(verdict([record, victim], two(10, 7))).toBe('passed');
    const unmeasured = situationWith({ residents: [resident('unus-primus', 10), { id: 'it', species: 'vicinus-primus' }] });
    expect(verdict([record, victim], unmeasured)).toBe('cantTell warning rivalry.unknown');
  });
});

describe('laws', () => {
  const records = [fish('unus-primus', { others: 3, claimL: 10 }), fish('vicinus-primus', { others: 1, claimL: 6 })];
  const RANK = ['passed', 'note', 'warning', 'error'];
  const gravity = (situation: Situation): number => RANK.indexOf(checkBy(rivalry, situation, records).findings[0]?.level ?? 'passed');

  it('more rock never makes it worse', () => {
    const found = [2, 8, 14, 20, 40].map((litres) =>
      gravity(two(10, 9, { tank: { ...TANK, rock: { envelope: { value: litres, unit: 'L' } } } })),
    );
    expect(found).toEqual([...found].sort((one, other) => other - one));
    expect(new Set(found).size).toBeGreaterThan(1);
  });

  it('others in the tank do not change what two do to each other', () => {
    const third = fish('zonatus-primus', { claimL: 15 });
    const crowded = situationWith({
      residents: [resident('unus-primus', 10), resident('vicinus-primus', 10), resident('zonatus-primus', 10)],
    });
    const about = (findings: readonly Finding[]): Finding[] =>
      findings.filter(({ key }) => key === 'rivalry:rival=unus-primus,rival=vicinus-primus');
    expect(about(checkBy(rivalry, crowded, [...records, third]).findings)).toEqual(about(checkBy(rivalry, two(10, 10), records).findings));
  });
});
