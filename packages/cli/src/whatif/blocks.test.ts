import { expect, test } from 'vitest';
import { blockRows, shardOf } from './blocks.js';

test('blocks are at least so large, at most so large, and enough for many workers', () => {
  expect([blockRows(1, 5), blockRows(27, 5), blockRows(2048, 13)]).toEqual([16, 16, 32]);
  expect([blockRows(10_000_000, 10), blockRows(10_000_000, 40), blockRows(10_000_000, 1000)]).toEqual([65_536, 52_416, 2096]);
  for (const rows of [blockRows(999, 7), blockRows(123_456, 33)]) expect(rows % 16).toBe(0);
});

test('shards hold every block once', () => {
  for (const blocks of [1, 7, 64]) {
    for (const of of [1, 3, 8, 100]) {
      const all = Array.from({ length: of }, (_, at) => shardOf(at + 1, of, blocks)).flatMap(({ from, until }) =>
        Array.from({ length: until - from }, (_, at) => from + at),
      );
      expect(all).toEqual(Array.from({ length: blocks }, (_, at) => at));
    }
  }
});
