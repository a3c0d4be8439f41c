import { describe, expect, it } from 'vitest';
import { copyOf, isReadBy, placesThatVary } from './slots.js';

const band = (value: number) => ({ low: value, centre: value, high: value + 1 });

describe('a copy', () => {
  it('holds the same, shared objects shared, and nothing of the original', () => {
    const shared = band(1);
    const original = { one: shared, other: shared, list: [shared, { name: 'x' }], none: undefined };
    const copy = copyOf(original);
    expect(copy).toEqual(original);
    expect(copy.one).not.toBe(shared);
    expect(copy.one).toBe(copy.other);
    expect(copy.list[0]).toBe(copy.one);
  });
});

describe('places that vary', () => {
  const stockOf = (value: number) => {
    const kind = { rate: band(value), name: 'a' };
    return { animals: [{ kind }, { kind }], day: 3 };
  };

  it('are the numbers that differ, those of a shared object once', () => {
    const places = placesThatVary(stockOf(1), stockOf(2), stockOf(3)) ?? [];
    expect(places.map(({ path, one, other }) => [path.join('/'), one, other])).toEqual([
      ['animals/0/kind/rate/low', 2, 3],
      ['animals/0/kind/rate/centre', 2, 3],
      ['animals/0/kind/rate/high', 3, 4],
    ]);
  });

  it('do not do where more than numbers differs', () => {
    expect(placesThatVary({ a: 1 }, { a: 1, b: 2 }, { a: 1 })).toBeUndefined();
    expect(placesThatVary({ a: 'x' }, { a: 'y' }, { a: 'z' })).toBeUndefined();
    expect(placesThatVary({ a: 1 }, { a: undefined }, { a: 2 })).toBeUndefined();
    expect(placesThatVary({ a: 1 }, { a: 1 }, { a: 1 })).toEqual([]);
  });

  it('tell whether they are read, and are as they were afterwards', () => {
    const stock = stockOf(1);
    const places = placesThatVary(stock, stockOf(2), stockOf(3)) ?? [];
    expect(isReadBy(places, () => stock.day)).toBe(false);
    expect(isReadBy(places, () => stock.animals[1]?.kind.rate.centre)).toBe(true);
    expect(isReadBy(places, () => ({ ...stock.animals[0]?.kind.rate }))).toBe(true);
    expect(() =>
      isReadBy(places, () => {
        throw new Error('a rule of others');
      }),
    ).toThrow('a rule of others');
    expect(stock).toEqual(stockOf(1));
    expect(Object.getOwnPropertyDescriptor(stock.animals[0]?.kind.rate, 'low')).toEqual({
      value: 1,
      writable: true,
      enumerable: true,
      configurable: true,
    });
  });
});
