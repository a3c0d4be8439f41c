import { addBit } from './bits.js';
import type { Model } from './model.js';

/** Sets of options of which not all are chosen, learnt as the search goes. */
export interface Nogoods {
  /** Places of each, three or more. */
  readonly places: readonly number[][];
  /** By place: numbers of those it is in. */
  readonly of: readonly number[][];
  /** Places that are never chosen. */
  readonly banned: Int32Array;
  /** Not even the empty set is left. */
  none: boolean;
}

export const nogoodsFor = ({ count, words }: Model): Nogoods => ({
  places: [],
  of: Array.from({ length: count }, () => []),
  banned: new Int32Array(words),
  none: false,
});

/** Learns that no set has all of these options. Of two options it becomes a conflict of the model, of one it bans it. */
export function learn(nogoods: Nogoods, { placeOf, clash, words }: Model, options: readonly number[]): void {
  const places = [...new Set(options)].map((option) => placeOf[option] ?? -1);
  const [one, other] = places;
  if (one === undefined) nogoods.none = true;
  else if (other === undefined) addBit(nogoods.banned, 0, one);
  else if (places.length === 2) {
    addBit(clash, one * words, other);
    addBit(clash, other * words, one);
  } else {
    for (const place of places) nogoods.of[place]?.push(nogoods.places.length);
    (nogoods.places as number[][]).push(places);
  }
}

/** Whether sorted options hold one of the nogoods. */
export function holdsNogood({ places, banned, none }: Nogoods, { placeOf, clash, words }: Model, options: readonly number[]): boolean {
  if (none) return true;
  const chosen = new Int32Array(words);
  for (const option of options) addBit(chosen, 0, placeOf[option] ?? 0);
  for (let word = 0; word < words; word += 1) if (((chosen[word] ?? 0) & (banned[word] ?? 0)) !== 0) return true;
  for (const option of options) {
    const at = (placeOf[option] ?? 0) * words;
    for (let word = 0; word < words; word += 1) if (((chosen[word] ?? 0) & (clash[at + word] ?? 0)) !== 0) return true;
  }
  return places.some((row) => row.every((place) => (((chosen[place >>> 5] ?? 0) >>> (place & 31)) & 1) === 1));
}
