import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, exact, onlyVerdict, PEACEFUL, recordWith, resident, situationWith, TANK, verdictOf } from '../../tests/support/scene.js';
import { rockCrowding } from './rock-crowding.js';

interface Traits {
  readonly claimL?: number | 'untold';
  readonly way?: 'grazes-rock' | 'holes-in-rock' | 'untold';
  readonly kin?: string;
  readonly company?: 'any' | 'pair';
  readonly claimHighL?: number;
}

const claimant = (id: string, { claimL = 8, way = 'grazes-rock', kin = id, company = 'any', claimHighL }: Traits = {}): SpeciesRecord =>
  recordWith(id, {
    kinGroup: { value: kin, basis: 'practice' },
    conduct: {
      pugnacity: PEACEFUL,
      company: { kind: company, basis: 'practice' },
      ...(claimL === 'untold' ? {} : { rockClaim: { ...exact(claimL, 'L'), ...(claimHighL === undefined ? {} : { high: claimHighL }) } }),
      ...(way === 'untold' ? {} : { wayOfLiving: { value: way, basis: 'practice' } }),
    },
  });

const withRock = (rockL: number | undefined, residents: Situation['residents'], more: Partial<Situation> = {}): Situation => {
  const { rock: _, ...bare } = TANK;
  return situationWith({
    tank: rockL === undefined ? bare : { ...bare, rock: { envelope: { value: rockL, unit: 'L' } } },
    residents,
    ...more,
  });
};

const byClaimant = (situation: Situation, records: readonly SpeciesRecord[]): Record<string, string> =>
  Object.fromEntries(
    checkBy(rockCrowding, situation, records).findings.map((finding) => [finding.subjects[0]?.id ?? '', verdictOf(finding)]),
  );

describe('rock-crowding', () => {
  it.each([
    [8, 'passed'],
    [7.9, 'failed warning rock-crowding.tooLittle'],
    [5.4, 'failed warning rock-crowding.tooLittle'],
    [5.3, 'failed error rock-crowding.tooLittle'],
  ])('one that claims 8 L on %f L of rock: %s', (rockL, verdict) => {
    expect(onlyVerdict(checkBy(rockCrowding, withRock(rockL, [resident('unus-primus', 10)]), [claimant('unus-primus')]))).toBe(verdict);
  });

  it('a half-grown animal that does not grow on claims a quarter', () => {
    const small = recordWith('unus-primus', {
      ...claimant('unus-primus'),
      growth: { asymptoticLength: exact(5, 'cm'), rate: exact(1, '/a') },
    });
    const [finding] = checkBy(rockCrowding, withRock(1.9, [resident('unus-primus', 5)]), [small]).findings;
    expect(finding?.data).toMatchObject({
      claimed: { value: 2, unit: 'L' },
      own: { value: 2, unit: 'L' },
      missingRock: { value: 0.1, unit: 'L' },
    });
  });

  it('others weigh by likeness: own kind 1, genus 0.8, kin 0.5, way of living 0.3, else nothing', () => {
    const records = [
      claimant('unus-primus', { claimL: 10, kin: 'these' }),
      claimant('unus-alter', { claimL: 10, kin: 'those', way: 'holes-in-rock' }),
      claimant('duo-primus', { claimL: 10, kin: 'these', way: 'holes-in-rock' }),
      claimant('tres-primus', { claimL: 10, kin: 'others' }),
      claimant('quattuor-primus', { claimL: 10, kin: 'more', way: 'holes-in-rock' }),
    ];
    const residents = [resident('unus-primus', 10, { count: 2 }), ...records.slice(1).map(({ id }) => resident(id, 10))];
    const { findings } = checkBy(rockCrowding, withRock(18, residents), records);
    const finding = findings.find(({ subjects }) => subjects[0]?.id === 'unus-primus');
    // 2 x 10 + 0.8 x 10 + 0.5 x 10 + 0.3 x 10 = 36: twice the rock.
    expect(finding).toMatchObject({
      level: 'error',
      when: null,
      subjects: [
        { id: 'unus-primus', role: 'claimant' },
        { id: 'unus-alter', role: 'rival' },
        { id: 'duo-primus', role: 'rival' },
        { id: 'tres-primus', role: 'rival' },
      ],
      key: 'rock-crowding:claimant=unus-primus,rival=duo-primus,rival=tres-primus,rival=unus-alter',
      data: {
        claimed: { value: 36, unit: 'L' },
        own: { value: 10, unit: 'L' },
        rock: { value: 18, unit: 'L' },
        missingRock: { value: 18, unit: 'L' },
      },
    });
  });

  it('companions hold one claim, the largest, whichever is named first', () => {
    const pair = claimant('unus-primus', { company: 'pair' });
    const both = recordWith('unus-primus', { ...pair, growth: { asymptoticLength: exact(1, 'cm'), rate: exact(1, '/a') } });
    for (const [first, second] of [
      ['a', 'b'],
      ['b', 'a'],
    ] as const) {
      const residents = [resident('unus-primus', 5, { id: first }), resident('unus-primus', 10, { id: second })];
      const { findings } = checkBy(rockCrowding, withRock(7, residents), [both]);
      expect(findings).toHaveLength(1);
      expect(findings[0]).toMatchObject({ subjects: [{ id: second, role: 'claimant' }], data: { claimed: { value: 8, unit: 'L' } } });
    }
  });

  it('rock that is claimed to the last drop is enough, in whatever order it is summed', () => {
    // 0.1 + 0.2 + 0.3 is 0.6000000000000001 from the left and 0.6 from the right.
    const records = [0.1, 0.2, 0.3].map((claimL, index) => claimant(`unus-${['primus', 'alter', 'tertius'][index]}`, { claimL }));
    const settings = { thresholds: { 'rock-crowding': { genus: 1 } } };
    for (const ids of ['abc', 'cba']) {
      const residents = records.map(({ id }, index) => resident(id, 10, { id: ids[index] ?? '' }));
      expect(onlyVerdict(checkBy(rockCrowding, withRock(0.6, residents, { settings }), records))).toBe('passed');
    }
  });

  it('one that leaves within the horizon claims nothing in the end', () => {
    const events = [{ kind: 'animal-removed' as const, date: '2028-01-01', animal: 'unus-primus' }];
    const checked = checkBy(rockCrowding, withRock(1, [resident('unus-primus', 10)], { events }), [claimant('unus-primus')]);
    expect(onlyVerdict(checked)).toBe('nothing judged');
  });

  it('one that claims nothing is not judged', () => {
    const checked = checkBy(rockCrowding, withRock(1, [resident('unus-primus', 10)]), [claimant('unus-primus', { claimL: 0 })]);
    expect(onlyVerdict(checked)).toBe('nothing judged');
  });

  it.each([
    [8.9, 'passed'],
    [12, 'cantTell warning rock-crowding.mayBeTooLittle'],
    [14, 'cantTell error rock-crowding.mayBeTooLittle'],
  ])('8 L claimed, perhaps up to %f L, on 9 L of rock: %s', (claimHighL, verdict) => {
    const checked = checkBy(rockCrowding, withRock(9, [resident('unus-primus', 10)]), [claimant('unus-primus', { claimHighL })]);
    expect(onlyVerdict(checked)).toBe(verdict);
    for (const { data } of checked.findings) expect(data.settle).toEqual({ keys: ['conduct.rockClaim'] });
  });

  it('rock weighed rather than measured is what would have to be measured', () => {
    // 14 kg / (2.8 x 0.55) = 9.09 L; with pores from 33 to 60 % anything from 7.3 L up.
    const tank = { ...TANK, rock: { mass: { value: 14, unit: 'kg' as const } } };
    const checked = checkBy(rockCrowding, situationWith({ tank, residents: [resident('unus-primus', 10)] }), [claimant('unus-primus')]);
    expect(onlyVerdict(checked)).toBe('cantTell warning rock-crowding.mayBeTooLittle');
    expect(checked.findings[0]?.data.settle).toEqual({ keys: ['tank.rock'] });
  });

  it('cannot tell without the rock, and says so', () => {
    const checked = checkBy(rockCrowding, withRock(undefined, [resident('unus-primus', 10)]), [claimant('unus-primus')]);
    expect(onlyVerdict(checked)).toBe('cantTell warning rock-crowding.rockUnknown');
    expect(checked.findings[0]?.data).toMatchObject({ missing: { keys: ['tank.rock'] }, claimed: { value: 8, unit: 'L' } });
  });

  it('cannot tell without a claim, its own or a rival’s, and says so', () => {
    const records = [claimant('unus-primus', { claimL: 'untold' }), claimant('unus-alter', { claimL: 1 })];
    const situation = withRock(20, [resident('unus-primus', 10), resident('unus-alter', 10)]);
    expect(byClaimant(situation, records)).toEqual({
      'unus-primus': 'cantTell error rock-crowding.claimUnknown',
      'unus-alter': 'cantTell error rock-crowding.claimUnknown',
    });
    for (const { data } of checkBy(rockCrowding, situation, records).findings)
      expect(data.missing).toEqual({ keys: ['conduct.rockClaim'] });
  });

  it('what is claimed for certain fails whatever else is unknown', () => {
    const records = [claimant('unus-primus', { claimL: 'untold' }), claimant('unus-alter', { claimL: 8 })];
    const verdicts = byClaimant(withRock(5, [resident('unus-primus', 10), resident('unus-alter', 10)]), records);
    expect(verdicts['unus-alter']).toBe('failed error rock-crowding.tooLittle');
  });

  it('a way of living that is not on record may be the same', () => {
    // 8 + 0.3 x 8 = 10.4 L.
    const records = [claimant('unus-primus'), claimant('duo-primus', { way: 'untold' })];
    const residents = [resident('unus-primus', 10), resident('duo-primus', 10)];
    const checked = checkBy(rockCrowding, withRock(10, residents), records);
    expect(checked.findings.map(verdictOf)).toEqual(Array(2).fill('cantTell warning rock-crowding.mayBeTooLittle'));
    expect(checked.findings[0]?.data.settle).toEqual({ keys: ['conduct.wayOfLiving'] });
    expect(byClaimant(withRock(10.5, residents), records)).toEqual({});
  });

  it('an adult length or a length that is not known makes no room', () => {
    const { length: _, ...unmeasured } = resident('unus-primus', 5);
    const bare = recordWith('unus-primus', { ...claimant('unus-primus'), size: {}, growth: {} });
    expect(onlyVerdict(checkBy(rockCrowding, withRock(7, [unmeasured]), [bare]))).toBe('failed warning rock-crowding.tooLittle');
    expect(onlyVerdict(checkBy(rockCrowding, withRock(8, [unmeasured]), [bare]))).toBe('passed');
  });

  it('weights and the share that is an error are settings', () => {
    const records = [claimant('unus-primus'), claimant('unus-alter')];
    const verdicts = (thresholds: Record<string, number>): string[] => [
      ...new Set(
        Object.values(
          byClaimant(
            withRock(9, [resident('unus-primus', 10), resident('unus-alter', 10)], {
              settings: { thresholds: { 'rock-crowding': thresholds } },
            }),
            records,
          ),
        ),
      ),
    ];
    // 8 + 0.8 x 8 = 14.4 L on 9 L: a share of 1.6.
    expect(verdicts({})).toEqual(['failed error rock-crowding.tooLittle']);
    expect(verdicts({ errorShare: 1.7 })).toEqual(['failed warning rock-crowding.tooLittle']);
    expect(verdicts({ genus: 0.1 })).toEqual([]);
  });
});
