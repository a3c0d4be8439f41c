import type { Stock, StockAnimal } from '../stock/stock.js';

/** First day, from the day of the situation on, on which an animal is in the tank. */
export const arrivalOf = (stock: Stock, animal: StockAnimal): number => Math.max(stock.day, animal.entryDay ?? stock.day);

/** Whether an animal is in the tank on a day. */
export const isThere = (stock: Stock, animal: StockAnimal, day: number): boolean =>
  arrivalOf(stock, animal) <= day && animal.leaveDay > day;

/** The animals that are in the tank some day from the day of the situation on. */
export const comers = (stock: Stock): readonly StockAnimal[] =>
  stock.animals.filter((animal) => animal.leaveDay > arrivalOf(stock, animal));
