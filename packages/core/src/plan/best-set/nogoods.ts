import { addBit } from './bits.js';
import type { Model } from './model.js';

/** Sets of options of which not all are chosen, learnt as the search goes. */
export interface Nogoods {
  /** Places of each, of three members or more; of a member any one counts. */
  readonly members: readonly (readonly number[])[][];
  readonly places: readonly number[][];
  /** By place: numbers of those it is in. */
  readonly of: readonly number[][];
  /** Places that are never chosen. */
  readonly banned: Int32Array;
  /** Not even the empty set is left. */
  none: boolean;
}

export const nogoodsFor = ({ count, words }: Model): Nogoods => ({
  members: [],
  places: [],
  of: Array.from({ length: count }, () => []),
  banned: new Int32Array(words),
  none: false,
});

/** Learns that no set has one of each of these rows. Two become conflicts of the model, of one all are banned. */
export function learn(nogoods: Nogoods, { placeOf, clash, words }: Model, rows: readonly (readonly number[])[]): void {
  const members = rows.map((row) => [...new Set(row)].map((option) => placeOf[option] ?? -1));
  const [first, second] = members;
  if (first === undefined) nogoods.none = true;
  else if (second === undefined) for (const place of first) addBit(nogoods.banned, 0, place);
  else if (members.length === 2) {
    for (const one of first) {
      for (const other of second) {
        addBit(clash, one * words, other);
        addBit(clash, other * words, one);
      }
    }
  } else {
    const places = members.flat();
    for (const place of places) nogoods.of[place]?.push(nogoods.places.length);
    (nogoods.members as number[][][]).push(members);
    (nogoods.places as number[][]).push(places);
  }
}

/** Whether sorted options hold one of the nogoods. */
export function holdsNogood({ members, banned, none }: Nogoods, { placeOf, clash, words }: Model, options: readonly number[]): boolean {
  if (none) return true;
  const chosen = new Int32Array(words);
  for (const option of options) addBit(chosen, 0, placeOf[option] ?? 0);
  for (let word = 0; word < words; word += 1) if (((chosen[word] ?? 0) & (banned[word] ?? 0)) !== 0) return true;
  for (const option of options) {
    const at = (placeOf[option] ?? 0) * words;
    for (let word = 0; word < words; word += 1) if (((chosen[word] ?? 0) & (clash[at + word] ?? 0)) !== 0) return true;
  }
  const isChosen = (place: number): boolean => (((chosen[place >>> 5] ?? 0) >>> (place & 31)) & 1) === 1;
  return members.some((rows) => rows.every((row) => row.some(isChosen)));
}
