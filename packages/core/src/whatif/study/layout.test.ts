import type { Design } from '@commensal/schema';
import { describe, expect, it, test } from 'vitest';
import { type Axis, layoutOf } from './layout.js';

const axes = (...names: string[]): Axis[] => names.map((name) => ({ name, values: 3 }));

function pointsOf(design: Design, of: readonly Axis[], seed = 1, replicate = 0): number[][] {
  const { points, at } = layoutOf(design, of, seed);
  const into = new Float64Array(of.length);
  return Array.from({ length: points }, (_, point) => {
    at(point, replicate, into);
    return [...into];
  });
}

const drawn: readonly Design[] = [
  { kind: 'monte-carlo', scenarios: 64 },
  { kind: 'latin-hypercube', scenarios: 64 },
  { kind: 'sobol', scenarios: 64 },
  { kind: 'halton', scenarios: 64 },
];

describe.each(drawn)('a design of kind $kind', (design) => {
  const points = pointsOf(design, axes('a', 'b'));

  it('lies inside, not on the ends', () => {
    expect(points).toHaveLength(64);
    for (const value of points.flat()) {
      expect(value).toBeGreaterThan(0);
      expect(value).toBeLessThan(1);
    }
  });

  it('is the same in any order', () => {
    const { at } = layoutOf(design, axes('a', 'b'), 1);
    const into = new Float64Array(2);
    for (const point of [63, 5, 40, 5, 0]) {
      at(point, 0, into);
      expect([...into]).toEqual(points[point]);
    }
  });

  it('does not shift where another axis follows', () => {
    expect(pointsOf(design, axes('a', 'b', 'c')).map((point) => point.slice(0, 2))).toEqual(points);
  });

  it('is another with another seed, replicate or name', () => {
    expect(pointsOf(design, axes('a', 'b'), 2)).not.toEqual(points);
    expect(pointsOf(design, axes('a', 'b'), 1, 1)).not.toEqual(points);
    expect(pointsOf(design, axes('d', 'b')).map(([first]) => first)).not.toEqual(points.map(([first]) => first));
  });

  it('has the mean of what lies evenly', () => {
    // 64 independent draws are off by 0.036 one time in three; four times that is far out.
    for (const axis of [0, 1]) expect(Math.abs(points.reduce((sum, point) => sum + (point[axis] ?? 0), 0) / 64 - 0.5)).toBeLessThan(0.144);
  });
});

test.each(['latin-hypercube', 'sobol'] as const)('%s meets each of so many shares once on every axis', (kind) => {
  const points = pointsOf({ kind, scenarios: 256 }, axes('a', 'b', 'c'));
  for (const axis of [0, 1, 2]) expect(new Set(points.map((point) => Math.floor((point[axis] ?? 0) * 256))).size).toBe(256);
});

test('monte-carlo and latin-hypercube hang on names, not on places', () => {
  for (const kind of ['monte-carlo', 'latin-hypercube'] as const) {
    const design: Design = { kind, scenarios: 16 };
    const swapped = pointsOf(design, axes('b', 'a')).map(([b, a]) => [a, b]);
    expect(swapped).toEqual(pointsOf(design, axes('a', 'b')));
  }
});

test('a grid has every combination once', () => {
  const points = pointsOf({ kind: 'grid' }, [
    { name: 'a', values: 2 },
    { name: 'b', values: 3 },
  ]);
  expect(points.map(([a = 0, b = 0]) => [Math.floor(a * 2), Math.floor(b * 3)])).toEqual([
    [0, 0],
    [0, 1],
    [0, 2],
    [1, 0],
    [1, 1],
    [1, 2],
  ]);
});

test('a design for shares of variance takes one variable at a time from the other block', () => {
  const points = pointsOf({ kind: 'sensitivity', points: 8 }, axes('a', 'b'));
  expect(points).toHaveLength(8 * 4);
  for (let point = 0; point < 8; point += 1) {
    const [a = [], b = [], first = [], second = []] = points.slice(point * 4, point * 4 + 4);
    expect(a[0]).not.toBe(b[0]);
    expect(first).toEqual([b[0], a[1]]);
    expect(second).toEqual([a[0], b[1]]);
  }
});
