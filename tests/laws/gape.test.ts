import { check, gape, stockOf } from '@commensal/core';
import type { Situation } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayAfter, INVENTED, inventedRecords, libraryFor, type Scene, START } from '../support/arbitraries.js';
import { rankOf } from '../support/ranks.js';
import { runs } from '../support/runs.js';
import { records as sample } from '@commensal/species-sample';
import type { AnyRule } from '@commensal/core';

const RULE = [gape as AnyRule];

/** Those of the sample that swallow others whole. */
const SWALLOWERS = sample.filter(({ shape }) => shape?.gapeClass?.value !== 'notGapeLimited').map(({ id }) => id);

/** Two animals, one of them perhaps a newcomer, and a horizon that is now near, now far. */
const drawn = fc.record({
  invented: inventedRecords,
  withStandIns: fc.boolean(),
  predator: fc.oneof(fc.constantFrom<string>(...INVENTED), fc.constantFrom(...SWALLOWERS)),
  prey: fc.oneof(fc.constantFrom<string>(...INVENTED), fc.constantFrom(...sample.map(({ id }) => id))),
  /** The predator over the prey: where most of it turns. */
  times: fc.integer({ min: 5, max: 60 }).map((tenths) => tenths / 10),
  preyCm: fc.integer({ min: 15, max: 300 }).map((tenths) => tenths / 10),
  /** Errors of the two readings. */
  predatorError: fc.constantFrom<number>(1, 1, 1.1, 1.4),
  preyError: fc.constantFrom<number>(1, 1, 1.1, 1.4),
  predatorDay: fc.constantFrom<number | undefined>(undefined, 0, 30, 200),
  preyDay: fc.constantFrom<number | undefined>(undefined, 0, 30, 200),
  horizonDays: fc.constantFrom<number>(20, 365, 1096, 3000),
});

const pairs = drawn.map(({ times, ...pair }) => ({ ...pair, predatorCm: pair.preyCm * times }));

type Pair = typeof pairs extends fc.Arbitrary<infer Value> ? Value : never;

function scene(pair: Pair): Scene {
  const length = (cm: number, error: number): object => ({ value: cm, low: cm / error, high: cm * error, unit: 'cm' });
  const animals = [
    { id: 'predator', species: pair.predator, length: length(pair.predatorCm, pair.predatorError), day: pair.predatorDay },
    { id: 'prey', species: pair.prey, length: length(pair.preyCm, pair.preyError), day: pair.preyDay },
  ];
  return {
    invented: pair.invented,
    withStandIns: pair.withStandIns,
    situation: {
      date: START,
      tank: { water: { value: 200, unit: 'L' } },
      residents: animals.filter(({ day }) => day === undefined).map(({ day: _, ...animal }) => animal),
      introductions: animals.flatMap(({ day, ...animal }) => (day === undefined ? [] : [{ date: dayAfter(day), animals: [animal] }])),
      settings: { horizonDays: pair.horizonDays },
    } as unknown as Situation,
  };
}

/** How bad it is for the prey. */
function danger(pair: Pair): number {
  const told = scene(pair);
  const { findings } = check(stockOf(told.situation, libraryFor(told)).stock, RULE);
  return Math.max(0, ...findings.filter(({ subjects }) => subjects[0]?.id === 'predator').map(rankOf));
}

const found = new Map<number, number>();
const noted = (rank: number): number => {
  found.set(rank, (found.get(rank) ?? 0) + 1);
  return rank;
};

const factor = fc.constantFrom(1.01, 1.1, 1.5, 2, 4);

describe('gape', () => {
  it('a longer predator is never safer', () => {
    fc.assert(
      fc.property(pairs, factor, (pair, times) => {
        expect(danger({ ...pair, predatorCm: pair.predatorCm * times })).toBeGreaterThanOrEqual(noted(danger(pair)));
      }),
      { numRuns: runs(5000) },
    );
    // All of it comes up: passed, doubts and failures of every level.
    expect([...found.keys()].sort()).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });

  it('a longer prey is never in more danger', () => {
    fc.assert(
      fc.property(pairs, factor, (pair, times) => {
        expect(danger({ ...pair, preyCm: pair.preyCm * times })).toBeLessThanOrEqual(danger(pair));
      }),
      { numRuns: runs(5000) },
    );
  });

  it('looking further ahead never finds less', () => {
    fc.assert(
      fc.property(pairs, fc.integer({ min: 1, max: 4000 }), (pair, more) => {
        const outcomeOf = (rank: number): number => (rank === 0 ? 0 : rank <= 3 ? 1 : 2);
        expect(outcomeOf(danger({ ...pair, horizonDays: pair.horizonDays + more }))).toBeGreaterThanOrEqual(outcomeOf(danger(pair)));
      }),
      { numRuns: runs(3000) },
    );
  });

  it('the first dangerous day is dangerous, and the day before it is not', () => {
    let dated = 0;
    fc.assert(
      fc.property(pairs, (pair) => {
        const told = scene(pair);
        const at = (horizonDays: number) =>
          check(stockOf({ ...told.situation, settings: { horizonDays } }, libraryFor(told)).stock, RULE).findings.find(
            ({ subjects }) => subjects[0]?.id === 'predator',
          );
        const finding = at(pair.horizonDays);
        if (finding?.message !== 'gape.fitsFrom' || finding.when === null) return;
        dated += 1;
        const days = Array.from({ length: pair.horizonDays + 1 }, (_, day) => day);
        const day = days.find((ahead) => dayAfter(ahead) === finding.when) as number;
        // The day is rounded down: the danger begins within it, so that it is seen from the day after at the latest.
        expect(['gape.fitsFrom', 'gape.fitsOnEntry', 'gape.fitsNow']).toContain(at(day + 1)?.message);
        expect(at(day - 1)?.message).not.toBe('gape.fitsFrom');
        expect(finding.data.lastSafeDay?.date).toBe(dayAfter(day - 1));
      }),
      { numRuns: runs(3000) },
    );
    expect(dated).toBeGreaterThan(5);
  });

  it('the safe length is safe to the horizon, at the centre', () => {
    let told = 0;
    fc.assert(
      fc.property(pairs, (pair) => {
        // The length is that of a newcomer on its day.
        const entering = { ...pair, preyDay: pair.preyDay ?? 30, preyError: 1 };
        const { situation, ...rest } = scene(entering);
        const messageAt = (preyCm: number): string | undefined => {
          const other = scene({ ...entering, preyCm });
          return check(stockOf(other.situation, libraryFor(other)).stock, RULE).findings.find(
            ({ subjects }) => subjects[0]?.id === 'predator',
          )?.message;
        };
        const finding = check(stockOf(situation, libraryFor({ situation, ...rest })).stock, RULE).findings.find(
          ({ subjects }) => subjects[0]?.id === 'predator',
        );
        const safe = finding?.data.safeLength?.value;
        // Meeting later than it came in, the prey has grown: the length is that on the day they meet.
        if (safe === undefined || (pair.predatorDay ?? 0) > entering.preyDay) return;
        told += 1;
        expect(['gape.fitsFrom', 'gape.fitsOnEntry']).not.toContain(messageAt(safe));
      }),
      { numRuns: runs(3000) },
    );
    expect(told).toBeGreaterThan(5);
  });
});
