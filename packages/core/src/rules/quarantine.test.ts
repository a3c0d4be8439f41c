import type { Newcomer, Situation } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { checkBy, newcomer, onlyVerdict, PEACEFUL, recordWith, situationWith, TANK, verdictOf } from '../../tests/support/scene.js';
import { quarantine } from './quarantine.js';

const chasing = (id: string, kinGroup: string): ReturnType<typeof recordWith> =>
  recordWith(id, {
    kinGroup: { value: kinGroup, basis: 'practice' },
    conduct: { pugnacity: { ...PEACEFUL, ownKind: 2, kin: 2 }, company: { kind: 'solitary', basis: 'practice' } },
  });

const records = [
  recordWith('unus-primus'),
  recordWith('duo-primus'),
  chasing('pugnax-primus', 'chasers'),
  chasing('rixosus-primus', 'chasers'),
  recordWith('obscurus-primus', { kinGroup: { value: 'chasers', basis: 'practice' }, conduct: {} }),
  recordWith('cancer-primus', { form: 'crab' }),
];

type Batch = readonly [date: string, ...animals: readonly (readonly [species: string, purchasedOn?: string, more?: Partial<Newcomer>])[]];

const plan = (batches: readonly Batch[], tank: Partial<Situation['tank']> = {}): Situation =>
  situationWith({
    tank: { ...TANK, ...tank },
    introductions: batches.map(([date, ...animals]) => ({
      date,
      animals: animals.map(([species, purchasedOn, more]) =>
        newcomer(species, 10, { ...(purchasedOn === undefined ? {} : { purchasedOn }), ...more }),
      ),
    })),
  });

const lots = (count: number): Partial<Situation['tank']> => ({ holdingTank: { lots: count } });

describe('watching', () => {
  it.each([
    ['2027-03-02', 'passed'],
    ['2027-03-03', 'failed warning quarantine.tooShort'],
    ['2027-04-01', 'failed warning quarantine.tooShort'],
    ['2027-04-05', 'failed warning quarantine.tooShort'],
  ])('a fish bought on %s for the first of April: %s', (bought, verdict) => {
    expect(onlyVerdict(checkBy(quarantine, plan([['2027-04-01', ['unus-primus', bought]]]), records))).toBe(verdict);
  });

  it('tells both spans and the days that would do', () => {
    expect(checkBy(quarantine, plan([['2027-04-01', ['unus-primus', '2027-03-22']]]), records).findings[0]).toMatchObject({
      key: 'quarantine:newcomer=unus-primus',
      when: '2027-04-01',
      data: {
        watched: { value: 10, unit: 'd' },
        needed: { value: 30, unit: 'd' },
        buyBy: { date: '2027-03-02' },
        earliest: { date: '2027-04-21' },
      },
    });
  });

  it('without days of purchase one note a batch names the field', () => {
    const checked = checkBy(quarantine, plan([['2027-04-01', ['unus-primus'], ['duo-primus']]]), records);
    expect(onlyVerdict(checked)).toBe('cantTell note quarantine.purchaseUnknown');
    expect(checked.findings[0]).toMatchObject({
      key: 'quarantine:untold=duo-primus,untold=unus-primus',
      data: { missing: { keys: ['purchasedOn'] }, buyBy: { date: '2027-03-02' } },
    });
  });

  it('gives no day to buy by that is past', () => {
    const [finding] = checkBy(quarantine, plan([['2027-03-30', ['unus-primus']]]), records).findings;
    expect(finding?.message).toBe('quarantine.purchaseUnknown');
    expect(finding?.data.buyBy).toBeUndefined();
  });

  it('is for fishes, and not for residents', () => {
    const checked = checkBy(quarantine, plan([['2027-04-01', ['cancer-primus', '2027-03-31']]]), records);
    expect(onlyVerdict(checked)).toBe('nothing judged');
    const settled = situationWith({ residents: [{ id: 'a', species: 'unus-primus', enteredOn: '2027-02-01' }] });
    expect(onlyVerdict(checkBy(quarantine, settled, records))).toBe('nothing judged');
  });

  it('how long is a setting', () => {
    const settings = { thresholds: { quarantine: { watchDays: 10 } } };
    const situation = { ...plan([['2027-04-01', ['unus-primus', '2027-03-22']]]), settings };
    expect(onlyVerdict(checkBy(quarantine, situation, records))).toBe('passed');
  });
});

describe('the holding tank', () => {
  const two = (secondBought: string, tank?: Partial<Situation['tank']>): Situation =>
    plan(
      [
        ['2027-04-10', ['unus-primus', '2027-03-05']],
        ['2027-05-10', ['duo-primus', secondBought]],
      ],
      tank,
    );

  it('takes one lot after the other', () => {
    // The first goes in on the tenth; on that day its place is free.
    expect(onlyVerdict(checkBy(quarantine, two('2027-04-10', lots(1)), records))).toBe('passed');
    const checked = checkBy(quarantine, two('2027-04-09', lots(1)), records);
    expect(onlyVerdict(checked)).toBe('failed warning quarantine.noRoom');
    expect(checked.findings[0]).toMatchObject({
      key: 'quarantine:lot=duo-primus,lodger=unus-primus',
      when: '2027-04-09',
      data: { lots: { value: 2, unit: '1' }, room: { value: 1, unit: '1' }, free: { date: '2027-04-10' } },
    });
  });

  it('takes as many as it has room for', () => {
    expect(onlyVerdict(checkBy(quarantine, two('2027-04-01', lots(2)), records))).toBe('passed');
    const third: Batch = ['2027-05-20', ['pugnax-primus', '2027-04-05']];
    const three = plan([['2027-04-10', ['unus-primus', '2027-03-05']], ['2027-05-10', ['duo-primus', '2027-04-01']], third], lots(2));
    expect(checkBy(quarantine, three, records).findings.map(({ key, data }) => [key, data.free?.date])).toEqual([
      ['quarantine:lot=pugnax-primus,lodger=duo-primus,lodger=unus-primus', '2027-04-10'],
    ]);
  });

  it('not told of, cannot be told where lots meet, and is not asked for where they do not', () => {
    const checked = checkBy(quarantine, two('2027-04-09'), records);
    expect(onlyVerdict(checked)).toBe('cantTell warning quarantine.roomUnknown');
    expect(checked.findings[0]?.data.missing).toEqual({ keys: ['tank.holdingTank'] });
    expect(onlyVerdict(checkBy(quarantine, two('2027-04-10'), records))).toBe('passed');
  });
});

describe('kin in one lot', () => {
  const together = (...animals: readonly Batch[1][]): string[] =>
    checkBy(quarantine, plan([['2027-04-10', ...animals] as unknown as Batch], lots(1)), records).findings.map(verdictOf);

  it('that chase each other are a note', () => {
    expect(together(['pugnax-primus', '2027-03-05'], ['rixosus-primus', '2027-03-05'])).toEqual(['failed note quarantine.kinTogether']);
    expect(together(['pugnax-primus', '2027-03-05', { count: 2 }])).toEqual(['failed note quarantine.kinTogether']);
    expect(together(['pugnax-primus', '2027-03-05'])).toEqual([]);
    expect(together(['unus-primus', '2027-03-05'], ['duo-primus', '2027-03-05'])).toEqual([]);
  });

  it('of which one is known to chase count as chasing; of unknown ones it cannot be told', () => {
    expect(together(['pugnax-primus', '2027-03-05'], ['obscurus-primus', '2027-03-05'])).toEqual(['failed note quarantine.kinTogether']);
    const { findings } = checkBy(quarantine, plan([['2027-04-10', ['obscurus-primus', '2027-03-05', { count: 2 }]]], lots(1)), records);
    expect(findings.map(verdictOf)).toEqual(['cantTell note quarantine.kinUnknown']);
    expect(findings[0]?.data.missing).toEqual({ keys: ['conduct.pugnacity'] });
  });
});

describe('after a disease', () => {
  const bought = '2027-03-02';
  const after = (disease: NonNullable<Situation['tank']['disease']>, date = '2027-06-15', species = 'unus-primus'): string[] =>
    checkBy(quarantine, plan([[date, [species, bought]]], { disease }), records).findings.map(verdictOf);
  const fishless = (from: string, until: string, lastSeen = '2027-03-01') => ({ lastSeen, fishlessFrom: from, fishlessUntil: until });

  it('a fish waits for 76 days without fish', () => {
    expect(after({ lastSeen: '2027-03-01' })).toEqual(['failed warning quarantine.notFallow']);
    // From the 31st of March to the 14th of June there are 76 days.
    expect(after(fishless('2027-03-31', '2027-06-14'))).toEqual([]);
    expect(after(fishless('2027-04-01', '2027-06-14'))).toEqual(['failed warning quarantine.notFallow']);
  });

  it('days before the disease was last seen, and after the fish is in, do not count', () => {
    expect(after(fishless('2027-02-01', '2027-06-14', '2027-04-01'))).toEqual(['failed warning quarantine.notFallow']);
    expect(after(fishless('2027-03-31', '2027-07-30'), '2027-06-01')).toEqual(['failed warning quarantine.notFallow']);
  });

  it('tells how long, and until when to wait where the days still run', () => {
    const situation = plan([['2027-06-01', ['unus-primus', bought]]], { disease: fishless('2027-03-31', '2027-05-31') });
    expect(checkBy(quarantine, situation, records).findings[0]).toMatchObject({
      key: 'quarantine:fish=unus-primus',
      when: '2027-06-01',
      data: {
        fishless: { value: 62, unit: 'd' },
        needed: { value: 76, unit: 'd' },
        lastSeen: { date: '2027-03-01' },
        earliest: { date: '2027-06-15' },
      },
    });
    expect(
      checkBy(quarantine, plan([['2027-06-01', ['unus-primus', bought]]], { disease: { lastSeen: '2027-03-01' } }), records).findings[0]
        ?.data.earliest,
    ).toBeUndefined();
  });

  it('one of long ago is gone, and what is no fish need not wait', () => {
    expect(after({ lastSeen: '2026-06-15' })).toEqual(['failed warning quarantine.notFallow']);
    expect(after({ lastSeen: '2026-06-14' })).toEqual([]);
    expect(after({ lastSeen: '2027-03-01' }, '2027-06-15', 'cancer-primus')).toEqual([]);
  });
});
