import { daysTogether, type Stock, type StockAnimal } from '../stock/stock.js';

/**
 * First and last day to judge two animals on: the days both are in the tank up to the horizon. Where the later one comes in
 * beyond the horizon, the day it comes in: a horizon that ends early must not make a meeting safe. Undefined when they never
 * meet.
 */
export function meetingOf(stock: Stock, one: StockAnimal, other: StockAnimal): { from: number; until: number } | undefined {
  const together = daysTogether(stock, one, other);
  if (together !== undefined) return together;
  const day = Math.max(stock.day, one.entryDay ?? stock.day, other.entryDay ?? stock.day);
  return day > stock.horizonDay && one.leaveDay > day && other.leaveDay > day ? { from: day, until: day } : undefined;
}
