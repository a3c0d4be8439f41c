import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { type Kinship, likeness, mayLiveAlike } from './likeness.js';

const one: Kinship = { id: 'unus-primus', genus: 'Unus', kinGroup: 'kin', wayOfLiving: 'in-holes' };

describe('likeness', () => {
  it.each([
    { tie: 'its own kind', other: { ...one }, weight: 1 },
    { tie: 'its genus', other: { ...one, id: 'unus-alter' }, weight: 0.8 },
    { tie: 'its kin group', other: { ...one, id: 'duo-primus', genus: 'Duo' }, weight: 0.5 },
    { tie: 'its way of living', other: { id: 'duo-primus', genus: 'Duo', kinGroup: 'others', wayOfLiving: 'in-holes' }, weight: 0.3 },
    { tie: 'nothing in common', other: { id: 'duo-primus', genus: 'Duo', kinGroup: 'others', wayOfLiving: 'in-sand' }, weight: 0 },
  ])('with $tie it is $weight', ({ other, weight }) => {
    expect(likeness(one, other)).toBe(weight);
  });

  it('two ways of living that are not known are not alike', () => {
    const { wayOfLiving: _, ...untold } = one;
    expect(likeness(untold, { id: 'duo-primus', genus: 'Duo', kinGroup: 'others' })).toBe(0);
  });

  it('the closest tie decides, with the weights that are passed in', () => {
    const weights = { ownKind: 4, genus: 3, kin: 2, wayOfLiving: 1 };
    expect(likeness(one, one, weights)).toBe(4);
    expect(likeness(one, { ...one, id: 'unus-alter' }, weights)).toBe(3);
    expect(likeness(one, { ...one, id: 'duo-primus', genus: 'Duo' }, weights)).toBe(2);
    expect(likeness(one, { ...one, id: 'duo-primus', genus: 'Duo', kinGroup: 'others' }, weights)).toBe(1);
  });

  it('is the same whoever is named first', () => {
    const few = (...names: string[]): fc.Arbitrary<string> => fc.constantFrom(...names);
    const kinship: fc.Arbitrary<Kinship> = fc.record({
      id: few('a', 'b', 'c'),
      genus: few('A', 'B'),
      kinGroup: few('k', 'l'),
      wayOfLiving: fc.option(few('in-holes', 'in-sand'), { nil: undefined }),
    });
    fc.assert(
      fc.property(kinship, kinship, (first, second) => {
        expect(likeness(first, second)).toBe(likeness(second, first));
      }),
      { numRuns: runs(300) },
    );
  });
});

describe('mayLiveAlike', () => {
  const { wayOfLiving: _, ...untold } = one;

  it.each([
    [one, untold, 0, true],
    [untold, one, 0, true],
    [one, one, 0, false],
    // What is alike otherwise weighs by that.
    [one, untold, 0.5, false],
  ])('%j and %j, otherwise %f: %s', (first, second, alike, is) => {
    expect(mayLiveAlike(first, second, alike)).toBe(is);
  });
});
