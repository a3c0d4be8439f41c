import type { StockAnimal } from '../stock/stock.js';

/** A figure of one animal by day, worked out once each. The days are few: to go through them is quicker than to hash them. */
export function dayPage<Entry>(figureOf: (animal: StockAnimal, day: number) => Entry, animal: StockAnimal): (day: number) => Entry {
  const days: number[] = [];
  const entries: Entry[] = [];
  return (day) => {
    for (let at = 0; at < days.length; at += 1) if (days[at] === day) return entries[at] as Entry;
    const entry = figureOf(animal, day);
    days.push(day);
    entries.push(entry);
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
