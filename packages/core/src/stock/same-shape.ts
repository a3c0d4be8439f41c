import type { Stock, StockAnimal } from './stock.js';

/**
 * An animal as all animals are laid out. Rules read them many million times, and engines throw away the code they compiled when they meet
 * an object laid out otherwise: what makes an animal hands it through here.
 */
export function laidOut({
  id,
  name,
  kind,
  count,
  role,
  sex,
  origin,
  purchaseDay,
  lengthCm,
  lengthDay,
  entryDay,
  leaveDay,
}: StockAnimal): StockAnimal {
  return { id, name, kind, count, role, sex, origin, purchaseDay, lengthCm, lengthDay, entryDay, leaveDay };
}

/** A stock with other animals in it, laid out as all stocks are. */
export function holding(stock: Omit<Stock, 'animals'>, animals: readonly StockAnimal[]): Stock {
  const { day, horizonDay, tank, keeper, wishes, rockRelaidOn, divided, settings } = stock;
  return { day, horizonDay, tank, keeper, animals, wishes, rockRelaidOn, divided, settings };
}
