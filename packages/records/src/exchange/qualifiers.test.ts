import { type KeyOrder, speciesKeys } from '@commensal/schema';
import { expect, it } from 'vitest';
import { QUALIFIERS } from './qualifiers.js';

/** Every quantity of the schema: whatever has a unit. */
const quantitiesIn = (order: KeyOrder): KeyOrder[] =>
  Object.values(order).flatMap((inner) => (inner === null ? [] : [...('unit' in inner ? [inner] : []), ...quantitiesIn(inner)]));

it('are what quantities have besides their numbers, in the order of the schema', () => {
  const quantities = quantitiesIn(speciesKeys).map((keys) => Object.keys(keys));
  expect(quantities.length).toBeGreaterThan(20);
  const named = new Set(quantities.flat());
  for (const number of ['value', 'low', 'high']) named.delete(number);
  expect([...named].sort()).toEqual([...QUALIFIERS].sort());
  for (const keys of quantities) {
    const qualifiers = keys.filter((key) => QUALIFIERS.includes(key));
    expect(qualifiers).toEqual(QUALIFIERS.filter((key) => qualifiers.includes(key)));
  }
});
