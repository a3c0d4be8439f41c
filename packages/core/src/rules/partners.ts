import type { StockKind } from '../stock/stock.js';

/** Whether one of two species names the other as its host, its guest or the one it shares a burrow with. */
export const arePartners = (one: StockKind, other: StockKind): boolean => names(one, other) || names(other, one);

const names = (one: StockKind, other: StockKind): boolean =>
  one.record.needs?.partners?.some(({ species }) => species === other.id) === true;
