import type { Situation } from '@commensal/schema';

/** Whether a species is wished for more than once, so that what is granted could not be told apart by it. */
export const hasTwins = ({ wishes = [] }: Situation): boolean => new Set(wishes.map(({ species }) => species)).size < wishes.length;

/** The situation with no other wishes than some of its own, in just these numbers, all of which have to be in. */
export const havingToBeIn = (situation: Situation, wanted: readonly { readonly species: string; readonly count: number }[]): Situation => ({
  ...situation,
  wishes: wanted.map(({ species, count }) => ({
    ...situation.wishes?.find((wish) => wish.species === species),
    species,
    count: [count, count],
    must: true,
  })),
});
