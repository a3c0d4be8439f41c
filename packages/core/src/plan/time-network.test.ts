import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { type TimeBound, tightestBounds, timesOf } from './time-network.js';

const DAYS = 9;

/** All ways to give each point a day from 0 to below DAYS. */
function* allDays(count: number): Generator<readonly number[]> {
  if (count === 0) yield [];
  else for (const days of allDays(count - 1)) for (let day = 0; day < DAYS; day += 1) yield [...days, day];
}

const holds =
  (days: readonly number[]) =>
  ({ from, to, atMost }: TimeBound): boolean =>
    (to === undefined ? 0 : (days[to] as number)) - (from === undefined ? 0 : (days[from] as number)) <= atMost;

const endOf = (count: number): TimeBound[] => Array.from({ length: count }, (_, to) => ({ to, atMost: DAYS - 1 }));

function* subsetsOf<T>(items: readonly T[]): Generator<readonly T[]> {
  const [first, ...others] = items;
  if (first === undefined) yield [];
  else
    for (const some of subsetsOf(others)) {
      yield some;
      yield [first, ...some];
    }
}

/** Points and bounds between any two of them or day 0, all of whole days. */
const network = fc.integer({ min: 1, max: 4 }).chain((count) => {
  const point = fc.option(fc.nat(count - 1), { nil: undefined });
  return fc.record({
    count: fc.constant(count),
    bounds: fc.array(fc.record({ from: point, to: point, atMost: fc.integer({ min: -4, max: 5 }) }), { maxLength: 7 }),
  });
});

describe('timesOf', () => {
  it('equals the first and last days over all ways to give each point a day, and finds none exactly where there is none', () => {
    const seen = { some: 0, none: 0 };
    fc.assert(
      fc.property(network, ({ count, bounds }) => {
        // Every point ends within the days that are tried.
        const all = [...bounds, ...endOf(count)];
        const ways = [...allDays(count)].filter((days) => all.every(holds(days)));
        const found = timesOf(count, all);
        if (ways.length === 0) {
          seen.none += 1;
          expect(found.cycle).toBeDefined();
          return;
        }
        seen.some += 1;
        const points = Array.from({ length: count }, (_, point) => point);
        expect(found).toEqual({
          earliest: points.map((point) => Math.min(...ways.map((days) => days[point] as number))),
          latest: points.map((point) => Math.max(...ways.map((days) => days[point] as number))),
        });
      }),
      { numRuns: runs(400) },
    );
    expect(Math.min(seen.some, seen.none)).toBeGreaterThan(0);
  });

  it('all first days together hold, and so do all last days where there is a last one', () => {
    let seen = 0;
    fc.assert(
      fc.property(network, ({ count, bounds }) => {
        const found = timesOf(count, bounds);
        if (found.cycle !== undefined) return;
        seen += 1;
        expect(bounds.filter((bound) => !holds(found.earliest)(bound))).toEqual([]);
        expect(found.earliest.every((day, point) => day >= 0 && day <= (found.latest[point] as number))).toBe(true);
        if (found.latest.every(Number.isFinite)) expect(bounds.filter((bound) => !holds(found.latest)(bound))).toEqual([]);
      }),
      { numRuns: runs(400) },
    );
    expect(seen).toBeGreaterThan(0);
  });

  it('what cannot hold goes round and cannot hold by itself, and of all that cannot it is the fewest', () => {
    let seen = 0;
    fc.assert(
      fc.property(network, ({ count, bounds }) => {
        const { cycle } = timesOf(count, bounds);
        if (cycle === undefined) return;
        seen += 1;
        expect(cycle.length).toBeGreaterThan(0);
        // They are those that were given, not copies.
        const given: readonly TimeBound[] = bounds;
        expect(cycle.filter((bound) => !given.includes(bound))).toEqual([]);
        cycle.forEach((bound, at) => {
          const after = cycle[(at + 1) % cycle.length] as TimeBound;
          if (bound.to !== after.from) expect(after.from).toBeUndefined();
        });
        expect(timesOf(count, cycle).cycle).toBeDefined();
        const fewer = [...subsetsOf(bounds)].filter((some) => some.length < cycle.length);
        expect(fewer.filter((some) => timesOf(count, some).cycle !== undefined)).toEqual([]);
      }),
      { numRuns: runs(400) },
    );
    expect(seen).toBeGreaterThan(0);
  });

  it('of two cycles that cannot hold the one of fewer bounds is told', () => {
    const [there, back] = [
      { from: 0, to: 1, atMost: 5 },
      { from: 1, to: 0, atMost: -7 },
    ];
    const longer = [
      { from: 2, to: 3, atMost: 0 },
      { from: 3, to: 4, atMost: 0 },
      { from: 4, to: 2, atMost: -100 },
    ];
    expect(timesOf(5, [...longer, there, back])).toEqual({ cycle: expect.arrayContaining([there, back]) });
    expect(timesOf(5, [...longer, there, back]).cycle).toHaveLength(2);
    expect(timesOf(5, longer).cycle).toHaveLength(3);
  });

  it('a bound at odds with itself is told alone', () => {
    const never = { from: 0, to: 0, atMost: -1 };
    expect(timesOf(1, [never])).toEqual({ cycle: [never] });
  });

  it('without bounds everything may be on day 0 or on any other, and nothing has no days', () => {
    expect(timesOf(2, [])).toEqual({ earliest: [0, 0], latest: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY] });
    expect(timesOf(1, [{ to: 0, atMost: Number.POSITIVE_INFINITY }])).toEqual({ earliest: [0], latest: [Number.POSITIVE_INFINITY] });
    expect(timesOf(0, [])).toEqual({ earliest: [], latest: [] });
  });

  it('fractions that sum to nothing are no clash', () => {
    // 0.1 + 0.2 - 0.3 comes out as 5.6e-17, and the other way round below 0.
    const bounds = [
      { from: 0, to: 1, atMost: -0.1 },
      { from: 1, to: 2, atMost: -0.2 },
      { from: 2, to: 0, atMost: 0.3 },
    ];
    expect(-0.1 - 0.2 + 0.3).toBeLessThan(0);
    expect(timesOf(3, bounds).cycle).toBeUndefined();
    expect(timesOf(3, [...bounds, { from: 0, to: 2, atMost: -0.30001 }]).cycle).toBeDefined();
  });

  it.each([
    [{ from: 2, to: 0, atMost: 1 }, 'expected a point from 0 to below 2, received 2'],
    [{ from: 0, to: -1, atMost: 1 }, 'expected a point from 0 to below 2, received -1'],
    [{ from: 0, to: 0.5, atMost: 1 }, 'expected a point from 0 to below 2, received 0.5'],
    [{ from: 0, to: 1, atMost: Number.NaN }, 'expected a time, received NaN'],
    [{ from: 0, to: 1, atMost: Number.NEGATIVE_INFINITY }, 'expected a time, received -Infinity'],
  ])('refuses %o', (bound, message) => {
    expect(() => timesOf(2, [bound])).toThrow(new RangeError(`timesOf: ${message}`));
    expect(() => tightestBounds(2, [bound])).toThrow(new RangeError(`tightestBounds: ${message}`));
  });
});

describe('tightestBounds', () => {
  it('are those given where nothing tightens them, follow from them otherwise, and leave the same days', () => {
    let seen = 0;
    fc.assert(
      fc.property(network, ({ count, bounds }) => {
        const all = [...bounds, ...endOf(count), ...Array.from({ length: count }, (_, from) => ({ from, atMost: 0 }))];
        const ways = [...allDays(count)].filter((days) => all.every(holds(days)));
        const matrix = tightestBounds(count, all);
        expect(matrix === undefined).toBe(ways.length === 0);
        // Each entry is the greatest difference in any way.
        const dayAt = (days: readonly number[], point: number): number => days[point] ?? 0;
        for (const [from, row] of (matrix ?? []).entries()) {
          for (const [to, most] of row.entries()) {
            seen += 1;
            expect(most).toBe(Math.max(...ways.map((days) => dayAt(days, to) - dayAt(days, from))));
          }
        }
      }),
      { numRuns: runs(200) },
    );
    expect(seen).toBeGreaterThan(0);
  });
});
