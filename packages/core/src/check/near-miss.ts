/**
 * How many letters have to be put in, taken out or exchanged to make one word of another (Levenshtein 1966).
 *
 * @example
 * lettersApart('gap', 'gape'); // 1
 */
export function lettersApart(one: string, other: string): number {
  let row = Array.from({ length: other.length + 1 }, (_, at) => at);
  for (const [at, letter] of [...one].entries()) {
    const next = [at + 1];
    for (let column = 1; column < row.length; column += 1) {
      const exchanged = (row[column - 1] as number) + (other[column - 1] === letter ? 0 : 1);
      next.push(Math.min(exchanged, (row[column] as number) + 1, (next[column - 1] as number) + 1));
    }
    row = next;
  }
  return row.at(-1) as number;
}

/** So few letters say nothing of how a word goes on. */
const FEWEST_LETTERS = 3;

/**
 * The word that was most likely meant: the nearest, where half the letters or more are right; else one that begins with it.
 *
 * @example
 * nearMiss('gap', ['water', 'gape']); // 'gape'
 */
export function nearMiss(word: string, known: readonly string[]): string | undefined {
  const apart = known.map((one) => lettersApart(word, one));
  const least = Math.min(...apart);
  if (least <= word.length / 2) return known[apart.indexOf(least)];
  return word.length < FEWEST_LETTERS ? undefined : known.find((one) => one.startsWith(word));
}
