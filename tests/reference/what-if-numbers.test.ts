/** Published and independently computed values of the numeric pieces of what-if runs. */
import {
  directionNumbers,
  drawAt,
  firstPrimes,
  growthRateWith,
  normalQuantile,
  PASSES,
  philox4x32,
  quantileSearch,
  radicalInverse,
  shuffled,
  SOBOL_DIMENSIONS,
  sobolBits,
  sobolIndices,
  spreadQuantile,
  streamOf,
  wilson,
} from '@commensal/core';
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { runs } from '../support/runs.js';
import sobolPoints from './fixtures/sobol-points.json' with { type: 'json' };
import quantiles from './fixtures/distribution-quantiles.json' with { type: 'json' };

const TWO_32 = 4294967296;

describe('Philox 4x32-10: the known answers that come with Random123 (Salmon et al. 2011)', () => {
  test.each([
    [[0, 0, 0, 0], [0, 0], '6627e8d5 e169c58d bc57ac4c 9b00dbd8'],
    [[0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff], [0xffffffff, 0xffffffff], '408f276d 41c83b0e a20bc7c6 6d5451fd'],
    [[0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344], [0xa4093822, 0x299f31d0], 'd16cfe09 94fdcceb 5001e420 24126ea1'],
  ] as const)('counter %j, key %j', (counter, key, expected) => {
    const out = new Uint32Array(4);
    philox4x32(...(counter as readonly [number, number, number, number]), ...(key as readonly [number, number]), out);
    expect([...out].map((word) => word.toString(16).padStart(8, '0')).join(' ')).toBe(expected);
  });
});

describe('streams', () => {
  // RFC 9923 lists these for 32-bit FNV-1a.
  test.each([
    ['', 0x811c9dc5],
    ['a', 0xe40c292c],
    ['foobar', 0xbf9cf968],
  ])('FNV-1a of "%s"', (name, hash) => expect(streamOf(name)).toBe(hash));

  it('draws lie evenly, whatever counts up', () => {
    // Chi-square over 100 shares; 148.2 is passed once in 1,000 times by chance (99 degrees of freedom, 0.999). The seed is fixed: it does not fail now and then.
    const ways: readonly ((k: number) => number)[] = [
      (k) => drawAt(1, 7, k, 0),
      (k) => drawAt(1, k, 3, 0),
      (k) => drawAt(k, 7, 3, 0),
      (k) => drawAt(1, 7, 3, k),
      (k) => drawAt(1, 7, k * TWO_32, 0),
    ];
    for (const way of ways) {
      const counts = new Array<number>(100).fill(0);
      for (let k = 0; k < 20_000; k += 1) counts[Math.floor(way(k) * 100)] = (counts[Math.floor(way(k) * 100)] ?? 0) + 1;
      expect(counts.reduce((sum, count) => sum + (count - 200) ** 2 / 200, 0)).toBeLessThan(148.2);
    }
  });

  it('streams, scenarios and replicates hang together no more than chance has it', () => {
    // The correlation of 20,000 pairs passes 3.3 standard errors (0.0233) once in 1,000 times.
    const pairs: readonly ((k: number) => [number, number])[] = [
      (k) => [drawAt(5, 1, k, 0), drawAt(5, 2, k, 0)],
      (k) => [drawAt(5, 1, k, 0), drawAt(5, 1, k + 1, 0)],
      (k) => [drawAt(5, 1, k, 0), drawAt(5, 1, k, 1)],
      (k) => [drawAt(5, 1, k, 0), drawAt(6, 1, k, 0)],
    ];
    for (const pair of pairs) {
      let sum = 0;
      for (let k = 0; k < 20_000; k += 1) {
        const [one, other] = pair(k);
        sum += (one - 0.5) * (other - 0.5) * 12;
      }
      expect(Math.abs(sum / 20_000)).toBeLessThan(0.0233);
    }
  });
});

describe('the normal quantile', () => {
  // Check values printed with AS 241 (Wichura 1988), from memory; SciPy 1.17.1 gives the same. The last digit may turn on the logarithm of the machine.
  test.each([
    [0.25, -0.6744897501960817],
    [0.001, -3.090232306167814],
    [1e-20, -9.262340089798409],
  ])('of %d', (p, z) => expect(Math.abs(normalQuantile(p) / z - 1)).toBeLessThan(1e-15));

  it('is odd about a half, and has no ends', () => {
    for (const p of [1e-9, 0.02, 0.3]) expect(normalQuantile(1 - p)).toBeCloseTo(-normalQuantile(p), 7);
    for (const p of [0, 1, Number.NaN]) expect(() => normalQuantile(p)).toThrow(RangeError);
  });
});

describe('quantiles of what a study draws from', () => {
  it('are those of SciPy', () => {
    expect(quantiles.length).toBeGreaterThan(20);
    for (const { spread, u, value } of quantiles) {
      const found = spreadQuantile(spread as Parameters<typeof spreadQuantile>[0])(u);
      // Both sides round a few times; SciPy inverts by its own algorithms.
      expect(Math.abs(found - value), JSON.stringify({ spread, u })).toBeLessThanOrEqual(1e-12 * Math.max(1, Math.abs(value)));
    }
  });

  it('choose from lists by weight', () => {
    const draw = spreadQuantile({ kind: 'list', values: [1, 5, 9], weights: [1, 2, 1] });
    expect([0.1, 0.24, 0.26, 0.74, 0.76, 0.99].map(draw)).toEqual([1, 1, 5, 5, 9, 9]);
    expect([0.01, 0.49, 0.51, 0.99].map(spreadQuantile({ kind: 'words', words: ['a', 'b'] }))).toEqual([0, 0, 1, 1]);
    expect([0.01, 0.34, 0.99].map(spreadQuantile({ kind: 'range', from: 14, to: 42, step: 14 }))).toEqual([14, 28, 42]);
  });
});

describe('growth drawn jointly', () => {
  it('keeps both bands and, as far as they allow, the growth performance of Pauly & Munro 1984', () => {
    const bands = fc.tuple(fc.double({ min: 1.02, max: 1.6, noNaN: true }), fc.double({ min: 1.02, max: 3, noNaN: true }));
    fc.assert(
      fc.property(bands, ([ofLength, ofRate]) => {
        const length = { low: 20 / ofLength, high: 20 * ofLength };
        const rate = { low: 0.5 / ofRate, high: 0.5 * ofRate };
        const draw = growthRateWith(length, rate);
        const sl = Math.log(ofLength) / 1.2815515655446004;
        const sk = Math.log(ofRate) / 1.2815515655446004;
        // In logarithms the rate is linear in two standard normal values: its variance is the sum of the squares of both slopes.
        const slope = Math.log(draw(1, 0) / draw(0, 0));
        const own = Math.log(draw(0, 1) / draw(0, 0));
        expect(slope * slope + own * own).toBeCloseTo(sk * sk, 10);
        expect(Math.log(draw(0, 0))).toBeCloseTo(Math.log(0.5), 10);
        expect(slope).toBeCloseTo(-Math.min(2 * sl, sk), 10);
      }),
      { numRuns: runs(500) },
    );
  });
});

describe('the Sobol sequence', () => {
  it('is that of Joe & Kuo 2008 as SciPy has it, in every dimension', () => {
    expect(sobolPoints.points.length).toBeGreaterThan(5);
    for (const { at, bits } of sobolPoints.points) {
      expect(bits).toHaveLength(SOBOL_DIMENSIONS);
      expect(Array.from({ length: SOBOL_DIMENSIONS }, (_, dimension) => sobolBits(at, directionNumbers(dimension)))).toEqual(bits);
    }
  });

  it('has one point in each of 2^m shares of each dimension', () => {
    for (const dimension of [0, 1, 17, 254, 255]) {
      const shares = new Set(Array.from({ length: 1024 }, (_, at) => sobolBits(at, directionNumbers(dimension)) >>> 22));
      expect(shares.size).toBe(1024);
    }
  });
});

it('the Halton sequence in bases 2 and 3 begins as SciPy prints it', () => {
  const points = [0, 1, 2, 3, 4, 5, 6, 7].map((at) => [radicalInverse(at, 2), radicalInverse(at, 3)]);
  const expected = [
    [0, 0],
    [1 / 2, 1 / 3],
    [1 / 4, 2 / 3],
    [3 / 4, 1 / 9],
    [1 / 8, 4 / 9],
    [5 / 8, 7 / 9],
    [3 / 8, 2 / 9],
    [7 / 8, 5 / 9],
  ];
  // Digits are added up, which rounds.
  for (const [at, point] of points.entries()) for (const axis of [0, 1]) expect(point[axis]).toBeCloseTo(expected[at]?.[axis] ?? 9, 15);
  expect(firstPrimes(10)).toEqual([2, 3, 5, 7, 11, 13, 17, 19, 23, 29]);
});

describe('the shuffle', () => {
  it('has every number once', () => {
    for (const size of [1, 2, 3, 5, 16, 17, 100, 257, 1000]) {
      for (const seed of [0, 20270301]) {
        const all = Array.from({ length: size }, (_, at) => shuffled(at, size, seed, 9, 0));
        expect([...all].sort((one, other) => one - other)).toEqual(Array.from({ length: size }, (_, at) => at));
      }
    }
  });

  it('hangs on seed, stream and replicate', () => {
    const shuffle = (seed: number, stream: number, replicate: number): string =>
      Array.from({ length: 50 }, (_, at) => shuffled(at, 50, seed, stream, replicate)).join();
    expect(new Set([shuffle(1, 1, 0), shuffle(2, 1, 0), shuffle(1, 2, 0), shuffle(1, 1, 1)]).size).toBe(4);
  });
});

describe('the score interval, 95 %', () => {
  // Newcombe 1998, Statistics in Medicine 17: 857-872, table I, method 3.
  test.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('of %d in %d', (successes, trials, low, high) => {
    const interval = wilson(successes, trials);
    expect([interval.low.toFixed(4), interval.high.toFixed(4)]).toEqual([low.toFixed(4), high.toFixed(4)]);
  });

  it('mirrors, stays in bounds, narrows, and refuses what are no counts', () => {
    for (const [k, n] of [
      [0, 1],
      [3, 7],
      [29, 29],
    ] as const) {
      const [one, other] = [wilson(k, n), wilson(n - k, n)];
      expect(one.low).toBeCloseTo(1 - other.high, 12);
      expect(one.low).toBeGreaterThanOrEqual(0);
    }
    expect(wilson(50, 100).high - wilson(50, 100).low).toBeGreaterThan(wilson(500, 1000).high - wilson(500, 1000).low);
    expect(wilson(0, 0)).toEqual({ share: Number.NaN, low: 0, high: 1 });
    for (const [k, n] of [
      [2, 1],
      [-1, 3],
      [0.5, 3],
    ] as const) {
      expect(() => wilson(k, n)).toThrow(RangeError);
    }
  });
});

it('quantiles found in passes are those of sorting', () => {
  const numbers = fc.array(
    fc
      .oneof(
        fc.double(),
        fc.integer({ min: -5, max: 5 }),
        fc.constantFrom(0, -0, 1e-310, -1e300, Number.NaN),
        fc.double({ min: 0.9999, max: 1.0001 }),
      )
      .filter((value) => Math.abs(value) !== Number.POSITIVE_INFINITY),
    { maxLength: 60 },
  );
  fc.assert(
    fc.property(numbers, fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 4 }), (values, places) => {
      const search = quantileSearch(places);
      for (let pass = 0; pass < PASSES; pass += 1) {
        for (const value of values) search.add(value);
        search.next();
      }
      const sorted = values.filter((value) => !Number.isNaN(value)).sort((one, other) => one - other);
      const expected = places.map((place) => {
        if (sorted.length === 0) return Number.NaN;
        const at = place * (sorted.length - 1);
        const [low, high] = [sorted[Math.floor(at)] as number, sorted[Math.ceil(at)] as number];
        return low === high ? low : low + (at - Math.floor(at)) * (high - low);
      });
      expect(search.quantiles().map((value) => value + 0)).toEqual(expected.map((value) => value + 0));
    }),
    { numRuns: runs(1000) },
  );
});

describe('shares of variance', () => {
  it('of the function of Ishigami & Homma 1990, a = 7, b = 0.1, are the known ones', () => {
    const a = 7;
    const b = 0.1;
    const pi = Math.PI;
    const variance = a ** 2 / 8 + (b * pi ** 4) / 5 + (b ** 2 * pi ** 8) / 18 + 1 / 2;
    const v1 = 0.5 * (1 + (b * pi ** 4) / 5) ** 2;
    const v13 = b ** 2 * pi ** 8 * (1 / 18 - 1 / 50);
    const first = [v1 / variance, a ** 2 / 8 / variance, 0];
    const total = [(v1 + v13) / variance, a ** 2 / 8 / variance, v13 / variance];
    // Printed with the function: 0.3139, 0.4424, 0 and 0.5576, 0.4424, 0.2437.
    expect(first.map((share) => share.toFixed(4))).toEqual(['0.3139', '0.4424', '0.0000']);
    expect(total.map((share) => share.toFixed(4))).toEqual(['0.5576', '0.4424', '0.2437']);

    const points = 4096;
    const directions = Array.from({ length: 6 }, (_, dimension) => directionNumbers(dimension));
    const at = (point: number, dimension: number): number =>
      ((sobolBits(point, directions[dimension] as Int32Array) + 0.5) / TWO_32) * 2 * pi - pi;
    const ishigami = (x: readonly number[]): number =>
      Math.sin(x[0] ?? 0) + a * Math.sin(x[1] ?? 0) ** 2 + b * (x[2] ?? 0) ** 4 * Math.sin(x[0] ?? 0);
    const indices = sobolIndices(3, points, a / 2);
    for (let point = 0; point < points; point += 1) {
      const ofA = [0, 1, 2].map((dimension) => at(point, dimension));
      const ofB = [3, 4, 5].map((dimension) => at(point, dimension));
      indices.add(ishigami(ofA));
      indices.add(ishigami(ofB));
      for (const mixed of [0, 1, 2]) indices.add(ishigami(ofA.map((value, axis) => (axis === mixed ? (ofB[axis] as number) : value))));
    }
    for (const [variable, index] of indices.result().entries()) {
      // Each says itself how far it may be off; independent draws of this number would be off by about 0.02.
      expect(Math.abs(index.first - (first[variable] ?? 9))).toBeLessThan(0.02);
      expect(Math.abs(index.total - (total[variable] ?? 9))).toBeLessThan(0.02);
      expect(index.firstError).toBeLessThan(0.1);
      expect(index.totalError).toBeGreaterThan(0);
    }
  });
});
