import type { Situation, SpeciesRecord } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { deepFrozen, inventedSituation, inventedSpecies } from '../../../tests/support/invented.js';
import { check, type Checked } from '../../check/check.js';
import { libraryOf } from '../../stock/library.js';
import { stockOf } from '../../stock/stock-of.js';
import type { AnyRule } from '../rule.js';
import { nitrogen } from './nitrogen.js';

const exact = (value: number) => ({ value, low: value, high: value, basis: 'practice' as const });

/** Fully grown at 10 cm, where it weighs 10 g and is fed 0.4 g a day; nothing else is in doubt. */
const fish = (id: string, more: Partial<SpeciesRecord> = {}): SpeciesRecord =>
  inventedSpecies(id, {
    size: {
      entry: { ...exact(10), unit: 'cm' },
      captiveAdult: { ...exact(10), unit: 'cm' },
      weight: { a: 0.01, b: 3, basis: 'practice' },
    },
    growth: { asymptoticLength: { ...exact(10), unit: 'cm' }, rate: { ...exact(0.5), unit: '/a' } },
    feeding: { dailyFeed: { ...exact(0.04), unit: '1' } },
    ...more,
  });

const library = libraryOf([
  fish('unus-primus'),
  fish('duo-primus'),
  fish('cancer-primus', { form: 'crab', size: {}, feeding: {} }),
  fish('tres-ignotus', { size: {}, growth: {} }),
  fish('quattuor-crescens', { growth: { asymptoticLength: { ...exact(30), unit: 'cm' }, rate: { ...exact(0.5), unit: '/a' } } }),
]);

type Tank = Situation['tank'];

/** Water of which nothing is in doubt; 0.0691 of the ammonia in it is un-ionised. */
const TANK: Tank = {
  water: { value: 240, unit: 'L' },
  temperature: { value: 26, unit: 'Cel' },
  salinity: { value: 35, unit: '1' },
  acidity: { value: 8.2, unit: '[pH]' },
};

const filter = (value: number): Pick<Tank, 'filter'> => ({ filter: { area: { value, unit: 'm2' } } });
const feed = (grams: number, protein?: number): Pick<Tank, 'feed'> => ({
  feed: { mass: { value: grams, unit: 'g' }, ...(protein === undefined ? {} : { protein: { value: protein, unit: '1' } }) },
});

const residents = (count: number, species = 'unus-primus'): NonNullable<Situation['residents']> => [
  { id: species, species, count, length: { value: 10, unit: 'cm' }, enteredOn: '2026-03-01' },
];
const batch = (date: string, count: number, species = 'duo-primus'): NonNullable<Situation['introductions']>[number] => ({
  date,
  animals: [{ id: `${species}-of-${date}`, species, count }],
});

function checked(tank: Partial<Tank>, more: Partial<Situation> = {}): Checked {
  const situation = deepFrozen(inventedSituation({ tank: { ...TANK, ...tank }, ...more }));
  const { stock, problems } = stockOf(situation, library);
  expect(problems).toEqual([]);
  return check(stock, [nitrogen as AnyRule]);
}

const verdicts = (...[tank, more]: Parameters<typeof checked>): string[] =>
  checked(tank, more).findings.map(({ outcome, level, message }) => `${outcome} ${level} ${message}`);

describe('the load in the long run', () => {
  // Ten fish are fed 4 g a day, which makes 4 x 0.1 x 0.092 = 0.0368 g of ammonia nitrogen; media turn over 0.28 g a day and m2.
  it.each([
    [0.1, 'failed warning nitrogen.overCapacity'],
    [0.13, 'failed warning nitrogen.overCapacity'],
    [0.14, 'cantTell warning nitrogen.mayBeOverCapacity'],
    [0.5, 'passed'],
  ])('of ten fish over %f m2 of media: %s', (area, verdict) => {
    expect(verdicts(filter(area), { residents: residents(10) })[0] ?? 'passed').toBe(verdict);
  });

  it('tells both figures, the first day and what is lacking', () => {
    const [finding] = checked(filter(0.1), { residents: residents(10) }).findings;
    expect(finding).toMatchObject({
      key: 'nitrogen:eater=unus-primus',
      when: '2027-03-01',
      // (36.8 - 28) mg over 280 mg a m2.
      data: {
        missingArea: { value: 0.031, unit: 'm2' },
        area: { value: 0.13, unit: 'm2' },
        loadLow: { unit: 'mg/d' },
        filterHigh: { unit: 'mg/d' },
      },
    });
    expect(finding?.data.loadLow?.value).toBeLessThan(36.8);
    expect(finding?.data.loadHigh?.value).toBeGreaterThan(36.8);
  });

  it('a rate that was measured goes before the area of the media', () => {
    const rate = (value: number): Partial<Tank> => ({ filter: { area: { value: 9, unit: 'm2' }, rate: { value, unit: 'mg/d' } } });
    expect(verdicts(rate(36), { residents: residents(10) })).toEqual(['failed warning nitrogen.overCapacity']);
    expect(verdicts(rate(80), { residents: residents(10) })).toEqual([]);
  });

  it('food that is told goes before the ration by weight', () => {
    // 1 g of dry food makes 0.0414 g, more than 0.14 m2 turns over; 0.5 g of it does not.
    expect(verdicts({ ...filter(0.14), ...feed(1, 0.45) }, { residents: residents(1) })).toEqual(['failed warning nitrogen.overCapacity']);
    expect(verdicts({ ...filter(0.14), ...feed(0.25, 0.45) }, { residents: residents(10) })).toEqual([]);
    // Of unknown protein it may be frozen or dry.
    expect(verdicts({ ...filter(0.14), ...feed(1) }, { residents: residents(1) })).toEqual(['cantTell warning nitrogen.mayBeOverCapacity']);
  });

  it.each([
    [{}, 'tank.feed'],
    [feed(1), 'tank.feed.protein'],
    [feed(0.6, 0.45), 'tank.filter'],
  ])('a filter that may be too small, food told as %o: %s would settle it', (told, field) => {
    const [finding] = checked({ ...filter(0.14), ...told }, { residents: residents(told.feed === undefined ? 10 : 1) }).findings;
    expect(finding).toMatchObject({ message: 'nitrogen.mayBeOverCapacity', data: { settle: { keys: [field] } } });
  });

  it('growth and newcomers come on top of the food that is told', () => {
    const told = { ...filter(0.14), ...feed(0.5, 0.45) };
    expect(verdicts(told, { residents: residents(1) })).toEqual([]);
    const grown = checked(told, { residents: residents(2, 'quattuor-crescens') });
    expect(grown.findings[0]).toMatchObject({ message: 'nitrogen.overCapacity' });
    expect(grown.findings[0]?.when).toMatch(/^2027-(0[4-9]|1)/);
    const fuller = checked(told, { residents: residents(1), introductions: [batch('2027-05-01', 6)] }).findings;
    expect(fuller.find(({ message }) => message === 'nitrogen.overCapacity')?.when).toBe('2027-05-01');
  });

  it('food that is told for a tank without fishes is for those that come', () => {
    const introductions = [batch('2027-05-01', 2)];
    const cycled = { cycledOn: '2027-02-01' };
    expect(verdicts({ ...cycled, ...filter(0.14), ...feed(0.25, 0.45) }, { introductions })).toEqual([]);
    expect(verdicts({ ...cycled, ...filter(0.14), ...feed(1, 0.45) }, { introductions })).toContain('failed warning nitrogen.overCapacity');
  });

  it('less is fed where residents leave', () => {
    const events = [{ kind: 'animal-removed' as const, date: '2027-04-01', animal: 'unus-primus' }];
    const found = checked({ ...filter(0.14), ...feed(1, 0.45) }, { residents: residents(1), events }).findings;
    // It is over on the first day, while the resident is in.
    expect(found.map(({ when }) => when)).toEqual(['2027-03-01']);
  });

  it('without a filter it cannot be told: a note where nobody asked, else to decide', () => {
    expect(verdicts({}, { residents: residents(3) })).toEqual(['cantTell note nitrogen.filterUnknown']);
    expect(verdicts(feed(1), { residents: residents(3) })).toEqual(['cantTell warning nitrogen.filterUnknown']);
    const planned = { residents: residents(3), introductions: [batch('2027-05-01', 1)] };
    expect(verdicts({}, planned)).toContain('cantTell warning nitrogen.filterUnknown');
    expect(checked({}, planned).findings.find(({ message }) => message === 'nitrogen.filterUnknown')?.data.missing).toEqual({
      keys: ['tank.filter'],
    });
  });

  it('a fish of unknown size cannot be told, and is named', () => {
    const [finding] = checked(filter(2), { residents: [{ id: 'who', species: 'tres-ignotus' }, ...residents(1)] }).findings;
    expect(finding).toMatchObject({ key: 'nitrogen:eater=who', message: 'nitrogen.loadUnknown', data: { missing: { keys: ['length'] } } });
  });

  it('what lives on leavings makes no load of its own; a tank of such alone is not asked', () => {
    const { summary } = checked(filter(0.001), { residents: residents(40, 'cancer-primus') });
    expect(summary.rules.nitrogen).toEqual({ passed: 0, failed: 0, cantTell: 0, inapplicable: 0, untested: 0 });
  });
});

describe('the peak after a batch', () => {
  const more = (count: number, extra: Partial<Situation> = {}): Partial<Situation> => ({
    residents: residents(2),
    introductions: [batch('2027-04-01', count)],
    ...extra,
  });
  const ofBatch = (tank: Partial<Tank>, situation: Partial<Situation>) =>
    checked(tank, situation).findings.filter(({ message }) => /[pP]eak/.test(message));

  it.each([
    [1, undefined],
    [12, 'cantTell warning nitrogen.mayPeak'],
    [60, 'failed warning nitrogen.peak'],
    [200, 'failed error nitrogen.peak'],
  ])('of %i fish on two in 240 L: %s', (count, verdict) => {
    const [finding] = ofBatch(filter(20), more(count));
    expect(finding === undefined || finding.level === 'note' ? undefined : `${finding.outcome} ${finding.level} ${finding.message}`).toBe(
      verdict,
    );
  });

  it('tells the range, the limit and the day, and names the batch', () => {
    const [finding] = ofBatch(filter(20), more(60));
    expect(finding).toMatchObject({
      key: 'nitrogen:newcomer=duo-primus-of-2027-04-01',
      data: { day: { date: '2027-04-01' }, limit: { value: 0.05, unit: 'mg/L' }, peakLow: { unit: 'mg/L' } },
      basis: 'recalled',
    });
    expect(finding?.data.peakLow?.value).toBeLessThan(0.233);
    expect(finding?.data.peakHigh?.value).toBeGreaterThan(0.05);
    const days = (Date.parse(finding?.when ?? '') - Date.parse('2027-04-01')) / 86_400_000;
    expect(days).toBeGreaterThan(0);
    expect(days).toBeLessThan(14);
  });

  it('residents are carried: more of them make the same batch a smaller step', () => {
    const value = (count: number): number => {
      const [finding] = ofBatch(filter(50), { residents: residents(count), introductions: [batch('2027-04-01', 60)] });
      return finding?.data.peakHigh?.value ?? 0;
    };
    expect(value(4)).toBeGreaterThan(value(30));
  });

  it('is smaller where the batch comes in two', () => {
    const high = (introductions: Situation['introductions']): number =>
      Math.max(
        0,
        ...ofBatch(filter(20), { residents: residents(2), ...(introductions && { introductions }) }).map(
          ({ data }) => data.peakHigh?.value ?? 0,
        ),
      );
    expect(high([batch('2027-04-01', 30), batch('2027-06-01', 30)])).toBeLessThan(high([batch('2027-04-01', 60)]));
  });

  it('names the wait that would keep it down', () => {
    const introductions = [batch('2027-04-01', 40), batch('2027-04-03', 40)];
    const found = ofBatch(filter(20), { residents: residents(2), introductions });
    const second = found.find(({ data }) => data.day?.date === '2027-04-03');
    expect(second?.data.dayBefore).toEqual({ date: '2027-04-01' });
    const gap = second?.data.gap?.value ?? Number.NaN;
    expect(gap).toBeGreaterThan(2);
    const wait = second?.data.wait?.date ?? '';
    const again = ofBatch(filter(20), { residents: residents(2), introductions: [batch('2027-04-01', 40), batch(wait, 40)] });
    const waited = again.find(({ data }) => data.day?.date === wait);
    expect(waited === undefined || waited.outcome === 'cantTell' || waited.level === 'note').toBe(true);
  });

  it('water that is not told is taken at its worst, and a failure by it cannot be told', () => {
    const { acidity: _, ...told } = TANK;
    const situation = inventedSituation({ tank: { ...told, ...filter(20) }, ...more(60) });
    const { findings } = check(stockOf(situation, library).stock, [nitrogen as AnyRule]);
    const peak = findings.find(({ message }) => message === 'nitrogen.mayPeak');
    expect(peak).toMatchObject({ outcome: 'cantTell', data: { settle: { keys: ['tank.acidity'] } } });
  });

  it('worse water is worse', () => {
    const high = (value: number): number =>
      ofBatch({ ...filter(20), acidity: { value, unit: '[pH]' } }, more(60))[0]?.data.peakHigh?.value ?? 0;
    expect(high(8.4)).toBeGreaterThan(high(8.2));
  });

  it('starts from cycling where nothing is fed yet, and cannot be told where that is not told', () => {
    const empty = { introductions: [batch('2027-04-01', 5)] };
    expect(ofBatch({ ...filter(20), cycledOn: '2027-02-01' }, empty)).toEqual([]);
    const [unknown] = ofBatch(filter(20), empty);
    expect(unknown).toMatchObject({
      outcome: 'cantTell',
      level: 'warning',
      message: 'nitrogen.peakUnknown',
      data: { missing: { keys: ['tank.cycledOn'] } },
    });
    // Before it is cycled hardly any nitrifiers are there.
    const [early] = ofBatch({ ...filter(20), cycledOn: '2027-06-01' }, empty);
    expect(early).toMatchObject({ message: expect.stringMatching(/nitrogen\.(peak|mayPeak)/) });
    // One that was measured counts as it was.
    expect(ofBatch({ filter: { rate: { value: 2, unit: 'g/d' } } }, empty)).toEqual([]);
  });

  it('without a bound on the filter a low peak is not passed: that is said of the filter', () => {
    const { summary } = checked({}, more(1));
    expect(summary.rules.nitrogen).toMatchObject({ passed: 0, cantTell: 1, inapplicable: 1 });
    expect(checked(filter(20), more(1)).summary.rules.nitrogen).toMatchObject({ passed: 2, inapplicable: 0 });
  });

  it('a peak that is only worth a note is one where it can come to no harm', () => {
    const settings = { thresholds: { nitrogen: { warningMgPerL: 5, errorMgPerL: 6 } } };
    expect(ofBatch(filter(20), more(60, { settings }))[0]).toMatchObject({ outcome: 'failed', level: 'note', message: 'nitrogen.peak' });
    // At the centre under the limit of a note, at its worst above it: no doubt worth naming.
    expect(ofBatch(filter(20), more(6, { settings }))).toEqual([]);
  });

  it('is followed to the end of the last day, whatever part of a day the settings name', () => {
    const after = (followDays: number) => ofBatch(filter(20), more(60, { settings: { thresholds: { nitrogen: { followDays } } } }));
    expect(after(7.5)).toEqual(after(8));
  });

  it('limits are settings', () => {
    const settings = { thresholds: { nitrogen: { errorMgPerL: 0.06 } } };
    expect(ofBatch(filter(20), more(60, { settings }))[0]).toMatchObject({ level: 'error', data: { limit: { value: 0.06 } } });
  });
});

describe('oxygen', () => {
  const warm = (high: number): Partial<Tank> => ({ ...filter(20), temperature: { low: 25, high, unit: 'Cel' } });

  it('is a note above 27 degrees', () => {
    expect(verdicts(warm(27), { residents: residents(1) })).toEqual([]);
    const [finding] = checked(warm(28), { residents: residents(1) }).findings;
    // Benson & Krause at salinity 35: 6.442 mg/L at 28 degrees, 6.772 at 25.
    expect(finding).toMatchObject({
      key: 'nitrogen:breather=unus-primus',
      outcome: 'failed',
      level: 'note',
      message: 'nitrogen.warmWater',
      data: { oxygen: { value: 6.4, unit: 'mg/L' }, mildOxygen: { value: 6.8, unit: 'mg/L' } },
    });
  });
});
