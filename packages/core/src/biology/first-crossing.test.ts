import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { everCrosses, firstCrossing, type Growing } from './first-crossing.js';

/** Von Bertalanffy growth, written out once more: the test must not lean on the code it checks. */
const lengthAt = ({ startCm, asymptoticCm, ratePerYear }: Growing, years: number): number =>
  startCm >= asymptoticCm ? startCm : asymptoticCm - (asymptoticCm - startCm) * Math.exp(-ratePerYear * years);

/** How much longer, in cm, `a` is than `ratio` times `b`. */
const leadOf =
  (a: Growing, b: Growing, ratio: number) =>
  (years: number): number =>
    lengthAt(a, years) - ratio * lengthAt(b, years);

/**
 * The hair's breadth by which a lead must differ from zero to count, in cm: a hundred times the rounding of lengths up to a
 * few hundred cm, a thousandth of an atom's width.
 */
const HAIR_CM = 1e-11;
/** What the project's goals allow for a date; half a minute. */
const YEARS_OFF = 1e-6;

const STEPS = 1500;

/** The first time in a fine row of times at which the lead reaches `from`, closed in by halving; undefined when none does. */
function firstInScan(lead: (years: number) => number, from: number, untilYears: number): number | undefined {
  let before = 0;
  let peakAt = 0;
  const at = (step: number): number => (untilYears * step) / STEPS;
  const closedIn = (low: number, high: number): number => {
    if (lead(low) >= from) return low;
    let [outside, inside] = [low, high];
    for (let halving = 0; halving < 80; halving += 1) {
      const middle = (outside + inside) / 2;
      if (lead(middle) >= from) inside = middle;
      else outside = middle;
    }
    return inside;
  };
  for (let step = 0; step <= STEPS; step += 1) {
    if (lead(at(step)) >= from) return closedIn(before, at(step));
    if (lead(at(step)) > lead(at(peakAt))) peakAt = step;
    before = at(step);
  }
  // A window narrower than a step lies beside the highest point of the row: the lead has a single peak at most.
  const start = at(Math.max(0, peakAt - 1));
  const width = at(Math.min(STEPS, peakAt + 1)) - start;
  before = start;
  for (let step = 1; step <= STEPS; step += 1) {
    const time = start + (width * step) / STEPS;
    if (lead(time) >= from) return closedIn(before, time);
    before = time;
  }
  return undefined;
}

interface Case {
  readonly kind: string;
  readonly a: Growing;
  readonly b: Growing;
  readonly ratio: number;
  readonly untilYears: number;
}

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });
/** Rates of reef fishes: 0.03 to 16 a year, alike over orders of magnitude. */
const rate = between(Math.log(0.03), Math.log(16)).map(Math.exp);
const growing = fc.record({ startCm: between(1, 40), asymptoticCm: between(2, 80), ratePerYear: rate });
const until = between(0.05, 30);
/** Just off one, either way, by a thousandth down to nothing. */
const hardlyOne = fc.constantFrom(1 - 1e-3, 1 - 1e-6, 1 - 1e-8, 1, 1 + 1e-8, 1 + 1e-6, 1 + 1e-3);

/** Any two, at a ratio that they may reach. */
const anyTwo: fc.Arbitrary<Case> = fc
  .record({ a: growing, b: growing, ratio: between(0.2, 6), untilYears: until })
  .map((drawn) => ({ kind: 'any', ...drawn }));

const equalRates: fc.Arbitrary<Case> = anyTwo.map(({ a, b, ...rest }) => ({
  ...rest,
  kind: 'equal rates',
  a,
  b: { ...b, ratePerYear: a.ratePerYear },
}));

const noGrowth: fc.Arbitrary<Case> = fc.tuple(anyTwo, fc.constantFrom('a', 'b', 'both'), between(1, 2)).map(([drawn, who, beyond]) => {
  const grown = (growth: Growing): Growing => ({ ...growth, asymptoticCm: growth.startCm / beyond });
  return {
    ...drawn,
    kind: 'no growth',
    a: who === 'b' ? drawn.a : grown(drawn.a),
    b: who === 'a' ? drawn.b : grown(drawn.b),
  };
});

/** The one grows fast and early, the other slowly and far: the lead rises, peaks and falls, and the ratio is near its peak. */
const passing: fc.Arbitrary<Case> = fc
  .record({
    a: fc.record({ startCm: between(2, 8), asymptoticCm: between(12, 30), ratePerYear: between(1.5, 8) }),
    b: fc.record({ startCm: between(2, 6), asymptoticCm: between(30, 60), ratePerYear: between(0.03, 0.6) }),
    off: hardlyOne,
    untilYears: between(5, 30),
  })
  .map(({ a, b, off, untilYears }) => {
    let peak = 0;
    for (let step = 0; step <= 4000; step += 1)
      peak = Math.max(peak, lengthAt(a, (untilYears * step) / 4000) / lengthAt(b, (untilYears * step) / 4000));
    return { kind: 'passing', a, b, ratio: peak * off, untilYears };
  });

/** The ratio is that of a given time, hit to within a hair. */
const touching: fc.Arbitrary<Case> = fc
  .record({ a: growing, b: growing, off: hardlyOne, part: fc.constantFrom(0, 0.5, 1, 1000), untilYears: until })
  .map(({ a, b, off, part, untilYears }) => ({
    kind: 'touching',
    a,
    b,
    ratio: (lengthAt(a, untilYears * part) / lengthAt(b, untilYears * part)) * off,
    untilYears,
  }));

const cases: fc.Arbitrary<Case> = fc.oneof(
  anyTwo,
  equalRates,
  noGrowth,
  { arbitrary: passing, weight: 3 },
  { arbitrary: touching, weight: 2 },
);

describe('firstCrossing against a fine scan of the same growth', () => {
  const counts = new Map<string, number>();

  it('no class is wrong by more than a hair, and no date by more than 1e-6 years', () => {
    fc.assert(
      fc.property(cases, ({ kind, a, b, ratio, untilYears }) => {
        const lead = leadOf(a, b, ratio);
        const found = firstCrossing(a, b, ratio, untilYears);
        const class_ =
          found === Number.POSITIVE_INFINITY ? 'never' : found === 0 ? 'at once' : lead(untilYears) < 0 ? 'for a while' : 'later';
        counts.set(`${kind}, ${class_}`, (counts.get(`${kind}, ${class_}`) ?? 0) + 1);
        if (class_ === 'never') {
          // Nowhere may the one have been clearly long enough.
          expect(firstInScan(lead, HAIR_CM, untilYears)).toBeUndefined();
          return;
        }
        expect(found).toBeGreaterThanOrEqual(0);
        expect(found).toBeLessThanOrEqual(untilYears);
        // The one is long enough when it is said to be, but for a hair ...
        expect(lead(found)).toBeGreaterThanOrEqual(-HAIR_CM);
        // ... and the date lies between those at which it is short by a hair and long by a hair.
        // A touch that even the finest scan steps over has only the line above to witness it.
        expect(found).toBeGreaterThanOrEqual((firstInScan(lead, -HAIR_CM, untilYears) ?? found) - YEARS_OFF);
        expect(found).toBeLessThanOrEqual((firstInScan(lead, HAIR_CM, untilYears) ?? untilYears) + YEARS_OFF);
      }),
      { numRuns: runs(4000) },
    );
  });

  it('the pairs drawn held every class, those for a while among them', () => {
    const seen = (text: string): number => [...counts].reduce((sum, [name, count]) => (name.includes(text) ? sum + count : sum), 0);
    for (const class_ of ['never', 'at once', 'for a while', 'later']) expect(seen(class_)).toBeGreaterThan(0);
    for (const kind of ['any', 'equal rates', 'no growth', 'passing', 'touching']) expect(seen(kind)).toBeGreaterThan(0);
    expect(seen('passing, for a while')).toBeGreaterThan(0);
  });
});

describe('firstCrossing by hand', () => {
  it('two that grow at one rate: the difference closes like a single animal’s', () => {
    // a - b: 10 - 20 at the start, 40 - 20 in the end; zero when e^(-0.5 t) = 2/3.
    const b: Growing = { startCm: 20, asymptoticCm: 20, ratePerYear: 0.5 };
    // Nine decimals, as the function promises.
    expect(firstCrossing({ startCm: 10, asymptoticCm: 40, ratePerYear: 0.5 }, b, 1, 10)).toBeCloseTo(Math.log(1.5) / 0.5, 9);
  });

  it('a window in between, that opens and closes before the end, is seen', () => {
    const a: Growing = { startCm: 6, asymptoticCm: 20, ratePerYear: 4 };
    const b: Growing = { startCm: 4, asymptoticCm: 40, ratePerYear: 0.1 };
    const lead = leadOf(a, b, 3);
    expect([lead(0), lead(0.3), lead(10)].map(Math.sign)).toEqual([-1, 1, -1]);
    const found = firstCrossing(a, b, 3, 10);
    expect(found).toBeGreaterThan(0);
    expect(found).toBeLessThan(0.3);
    // The slope there is tens of cm a year, so 10^-9 years are well under 10^-7 cm.
    expect(Math.abs(lead(found))).toBeLessThan(1e-7);
  });

  it('is 0 where the one is long enough at the start, whatever comes later', () => {
    expect(firstCrossing({ startCm: 20, asymptoticCm: 20, ratePerYear: 1 }, { startCm: 10, asymptoticCm: 90, ratePerYear: 1 }, 2, 10)).toBe(
      0,
    );
  });

  it('does not look beyond the end of the span', () => {
    const a: Growing = { startCm: 10, asymptoticCm: 40, ratePerYear: 0.5 };
    const b: Growing = { startCm: 20, asymptoticCm: 20, ratePerYear: 0.5 };
    expect(firstCrossing(a, b, 1, 0.8)).toBe(Number.POSITIVE_INFINITY);
    expect(firstCrossing(a, b, 1, 0.9)).toBeLessThan(0.9);
    expect(firstCrossing(a, b, 1, 0)).toBe(Number.POSITIVE_INFINITY);
  });

  it('two that do not grow never change', () => {
    const fixed = (startCm: number): Growing => ({ startCm, asymptoticCm: 5, ratePerYear: 1 });
    expect(firstCrossing(fixed(19.99), fixed(10), 2, 30)).toBe(Number.POSITIVE_INFINITY);
    expect(firstCrossing(fixed(20), fixed(10), 2, 30)).toBe(0);
  });
});

/** Whether a date is no later than another: but for what the function promises, or where the lead at the other is a hair or less. */
const noLater = (found: number, other: number, leadAtOther: (years: number) => number): boolean =>
  found <= other + 2e-9 || leadAtOther(other) <= HAIR_CM;

describe('firstCrossing as a law', () => {
  it('everCrosses says whether there is a date', () => {
    fc.assert(
      fc.property(cases, ({ a, b, ratio, untilYears }) => {
        expect(everCrosses(a, b, ratio, untilYears)).toBe(firstCrossing(a, b, ratio, untilYears) < Number.POSITIVE_INFINITY);
      }),
      { numRuns: runs(500) },
    );
  });

  it('a longer start of the one is never later, a longer start of the other never sooner', () => {
    fc.assert(
      fc.property(cases, between(1, 1.5), ({ a, b, ratio, untilYears }, more) => {
        const found = firstCrossing(a, b, ratio, untilYears);
        const longA = { ...a, startCm: a.startCm * more };
        const longB = { ...b, startCm: b.startCm * more };
        expect(noLater(firstCrossing(longA, b, ratio, untilYears), found, leadOf(longA, b, ratio))).toBe(true);
        expect(noLater(found, firstCrossing(a, longB, ratio, untilYears), leadOf(a, b, ratio))).toBe(true);
      }),
      { numRuns: runs(1000) },
    );
  });

  it('a larger ratio is never reached sooner', () => {
    fc.assert(
      fc.property(cases, between(1, 1.5), ({ a, b, ratio, untilYears }, more) => {
        const found = firstCrossing(a, b, ratio, untilYears);
        expect(noLater(found, firstCrossing(a, b, ratio * more, untilYears), leadOf(a, b, ratio))).toBe(true);
      }),
      { numRuns: runs(1000) },
    );
  });

  it('scaling all lengths alike moves no date', () => {
    const doubled = (growth: Growing): Growing => ({ ...growth, startCm: growth.startCm * 2, asymptoticCm: growth.asymptoticCm * 2 });
    fc.assert(
      fc.property(cases, ({ a, b, ratio, untilYears }) => {
        // A power of two is exact in binary, so every step is the same.
        expect(firstCrossing(doubled(a), doubled(b), ratio, untilYears)).toBe(firstCrossing(a, b, ratio, untilYears));
      }),
      { numRuns: runs(500) },
    );
  });
});
