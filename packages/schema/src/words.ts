import { distance } from 'fastest-levenshtein';

const LONGEST = 60;

/**
 * A value as it would be quoted in a sentence.
 *
 * @example
 * valueWords('TL') // '"TL"'
 */
export function valueWords(value: unknown): string {
  if (value === undefined) return 'missing';
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : 'a list';
  if (typeof value === 'object' && value !== null) return Object.keys(value).length === 0 ? 'an empty object' : 'an object';
  if (typeof value !== 'string') return String(value);
  return JSON.stringify(value.length > LONGEST ? `${value.slice(0, LONGEST)}...` : value);
}

/**
 * Words as an enumeration.
 *
 * @example
 * listWords(['cm', 'mm', '[in_i]']) // 'cm, mm or [in_i]'
 */
export function listWords(words: readonly unknown[], conjunction = 'or'): string {
  const last = words.at(-1);
  return words.length < 2 ? String(last ?? 'nothing') : `${words.slice(0, -1).join(', ')} ${conjunction} ${String(last)}`;
}

/** A slip of the pen changes a letter, in a longer word two or more. */
const slips = (word: string): number => Math.max(1, Math.floor((word.length + 1) / 3));

const sorted = (word: string): string => [...word].sort().join('');

/** Letters that changed places are one slip. */
const distanceOf = (word: string, candidate: string): number =>
  sorted(word) === sorted(candidate) ? Math.min(1, distance(word, candidate)) : distance(word, candidate);

/**
 * The word that was probably meant, undefined where none is near.
 *
 * @example
 * nearestWord('lenght', ['length', 'width']) // 'length'
 */
export function nearestWord(word: string, words: readonly string[]): string | undefined {
  const folded = word.toLowerCase();
  let nearest: string | undefined;
  let least = slips(word) + 1;
  for (const candidate of words) {
    const far = distanceOf(folded, candidate.toLowerCase());
    if (far < least) {
      nearest = candidate;
      least = far;
    }
  }
  return nearest;
}

/**
 * What to do about a word that is not known.
 *
 * @example
 * didYouMean('lenght', ['length'], 'Take it out.') // 'Did you mean "length"?'
 */
export function didYouMean(word: unknown, words: readonly string[], otherwise: string): string {
  const nearest = typeof word === 'string' ? nearestWord(word, words) : undefined;
  return nearest === undefined ? otherwise : `Did you mean "${nearest}"?`;
}
