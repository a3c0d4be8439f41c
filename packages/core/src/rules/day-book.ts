import type { StockAnimal } from '../stock/stock.js';

/** A figure of an animal on a day, worked out once each: a book for one run of a rule. */
export function dayBook<Entry>(figureOf: (animal: StockAnimal, day: number) => Entry): (animal: StockAnimal, day: number) => Entry {
  const pages = new Map<StockAnimal, Map<number, Entry>>();
  return (animal, day) => {
    let page = pages.get(animal);
    if (page === undefined) {
      page = new Map();
      pages.set(animal, page);
    }
    let entry = page.get(day);
    if (entry === undefined) {
      entry = figureOf(animal, day);
      page.set(day, entry);
    }
    return entry;
  };
}
