/** What likeness is judged by. */
export interface Kinship {
  readonly id: string;
  readonly genus: string;
  readonly kinGroup: string;
  readonly wayOfLiving?: string | undefined;
}

/** How much of its claim an animal holds against another, by likeness (our choice). */
export interface LikenessWeights {
  readonly ownKind: number;
  readonly genus: number;
  readonly kin: number;
  readonly wayOfLiving: number;
}

/** Our choice. */
export const LIKENESS_WEIGHTS: LikenessWeights = { ownKind: 1, genus: 0.8, kin: 0.5, wayOfLiving: 0.3 };

/**
 * How much two animals are in each other's way on the same rock: own kind 1, same genus 0.8, same kin group 0.5, same way
 * of living 0.3, else 0, unless other weights are given.
 *
 * @example
 * likeness(
 *   { id: 'a-b', genus: 'A', kinGroup: 'k' },
 *   { id: 'a-c', genus: 'A', kinGroup: 'k' },
 * ); // 0.8
 */
export function likeness(one: Kinship, other: Kinship, weights: LikenessWeights = LIKENESS_WEIGHTS): number {
  if (one.id === other.id) return weights.ownKind;
  if (one.genus === other.genus) return weights.genus;
  if (one.kinGroup === other.kinGroup) return weights.kin;
  return one.wayOfLiving !== undefined && one.wayOfLiving === other.wayOfLiving ? weights.wayOfLiving : 0;
}

/**
 * Whether two that are not alike otherwise may live the same way, as it is not known how one of them lives.
 *
 * @param alike their likeness
 */
export const mayLiveAlike = (one: Kinship, other: Kinship, alike: number): boolean =>
  alike === 0 && (one.wayOfLiving === undefined || other.wayOfLiving === undefined);
