/** A set of options with its value. */
export interface Found {
  readonly options: readonly number[];
  readonly value: number;
}

/** Sets told apart by their options. */
export const keyOf = (options: readonly number[]): string => options.join(' ');

/** The best so many sets of those put in, best first. */
export interface Shortlist {
  readonly found: Found[];
  readonly most: number;
}

/** Puts in a set behind those of equal value; the last falls out where there are too many. */
export function putIn({ found, most }: Shortlist, one: Found): void {
  let at = found.length;
  while (at > 0 && (found[at - 1]?.value ?? 0) < one.value) at -= 1;
  found.splice(at, 0, one);
  if (found.length > most) found.pop();
}
