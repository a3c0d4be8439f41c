import type { Alternative, Chosen } from '@commensal/schema';
import type { Field } from './field.js';
import { type Ground, groundWith } from './ground.js';
import type { Pick } from './line.js';
import { selectBest, type Selection, withAShareOf } from './select.js';
import { worthOf } from './worth.js';

/** Most alternatives that are told. */
const MOST_ALTERNATIVES = 3;

/**
 * The best sets that hold a wish which the plan leaves out, the best first, each with one that those before it leave out as well.
 * So none is a part of another.
 */
export function alternativesTo(field: Field, { arrangement, numbers }: Selection, mostWork: number): Alternative[] {
  const { options } = field;
  // How well another set does is not told, only that it works.
  const ground = groundWith(field.ground, { asks: 'whether' });
  const asked: Field = { ...field, ground, arranged: new Map() };
  const found: Alternative[] = [];
  const without = (set: readonly number[]): number[] => {
    const lines = new Set(set.map((number) => options[number]?.line));
    return options.flatMap(({ line }, number) => (lines.has(line) ? [] : [number]));
  };
  const musts = [without(numbers)];
  while (found.length < MOST_ALTERNATIVES && musts.at(-1)?.length !== 0) {
    const other = selectBest(asked, { musts, mostWork: withAShareOf(mostWork, ground), ranked: false });
    if (other.arrangement === undefined || other.numbers.length === 0) break;
    found.push({
      ...differenceBetween(arrangement?.picks ?? [], other.arrangement.picks),
      chosen: chosenOf(field, other.arrangement.picks),
      worth: worthOf(other.arrangement.picks),
      proven: other.proven,
    });
    musts.push(without(other.numbers));
  }
  return found;
}

/** Picks as they stand in a document, in the order of the wish list. */
export function chosenOf({ ground }: { readonly ground: Ground }, picks: readonly Pick[]): Chosen[] {
  const granted = new Map(picks.map((pick) => [pick.line.wish, pick]));
  return ground.stock.wishes.flatMap((wish) => {
    const pick = granted.get(wish);
    return pick === undefined ? [] : [{ species: wish.kind.id, count: pick.count }];
  });
}

/** What another set has more and less of, by species. */
export function differenceBetween(picks: readonly Pick[], others: readonly Pick[]): { gains: string[]; losses: string[] } {
  const counts = (set: readonly Pick[]): Map<string, number> => new Map(set.map(({ line, count }) => [line.id, count]));
  const [own, its] = [counts(picks), counts(others)];
  const more = (set: readonly Pick[], than: ReadonlyMap<string, number>): string[] => [
    ...new Set(set.filter(({ line, count }) => count > (than.get(line.id) ?? 0)).map(({ line }) => line.wish.kind.id)),
  ];
  return { gains: more(others, own), losses: more(picks, its) };
}
