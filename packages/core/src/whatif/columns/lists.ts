/** Lists of whole numbers, one behind the other: those of list `n` stand in `members` from `from[n]` up to before `from[n + 1]`. */
export interface Lists {
  readonly from: Int32Array;
  readonly members: Int32Array;
}

/**
 * Lays lists out one behind the other.
 *
 * @example
 * [...listsOf([[4, 5], [], [6]]).from]; // [0, 2, 2, 3]
 */
export function listsOf(lists: readonly (readonly number[])[]): Lists {
  const from = new Int32Array(lists.length + 1);
  lists.forEach((list, at) => {
    from[at + 1] = (from[at] as number) + list.length;
  });
  return { from, members: Int32Array.from(lists.flat()) };
}
