import type { StockAnimal } from '../stock/stock.js';

/** A figure of one animal by day, worked out once each. */
export function dayPage<Entry>(figureOf: (animal: StockAnimal, day: number) => Entry, animal: StockAnimal): (day: number) => Entry {
  const entries = new Map<number, Entry>();
  return (day) => {
    let entry = entries.get(day);
    if (entry === undefined) {
      entry = figureOf(animal, day);
      entries.set(day, entry);
    }
    return entry;
  };
}

/** A figure of an animal on a day, worked out once each: a book for one run of a rule. */
export function dayBook<Entry>(figureOf: (animal: StockAnimal, day: number) => Entry): (animal: StockAnimal, day: number) => Entry {
  const pages = new Map<StockAnimal, (day: number) => Entry>();
  return (animal, day) => {
    let page = pages.get(animal);
    if (page === undefined) {
      page = dayPage(figureOf, animal);
      pages.set(animal, page);
    }
    return page(day);
  };
}
