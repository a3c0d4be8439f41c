import type { StockAnimal, StockKind } from '../stock/stock.js';

/**
 * Pugnacious: bites or kills other kinds, or chases newcomers. Undefined where the record does not tell.
 */
export function isPugnacious(kind: StockKind, othersFrom: number, newcomersFrom: number): boolean | undefined {
  const { pugnacity } = kind;
  return pugnacity === undefined ? undefined : pugnacity.others >= othersFrom || pugnacity.newcomers >= newcomersFrom;
}

/** Scavengers go in first. */
export const isScavenger = (animal: StockAnimal): boolean => animal.kind.record.introduction?.value === 'scavenger';

/** What one animal does to another of its kin, 0 to 4; undefined where the record does not tell. */
export function pugnacityToKin(one: StockKind, other: StockKind): number | undefined {
  const { pugnacity } = one;
  if (pugnacity === undefined) return undefined;
  if (one.id === other.id) return pugnacity.ownKind;
  return one.genus === other.genus ? Math.max(pugnacity.genus, pugnacity.kin) : pugnacity.kin;
}
