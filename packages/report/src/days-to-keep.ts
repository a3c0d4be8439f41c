import type { PlannedAnimals, PlannedIntroduction } from '@commensal/schema';
import { item, type Section, under } from './blocks.js';
import { say } from './catalogue.js';
import { sayDate, sayList, sayQuantity, type Voice } from './voice.js';

/** Something to do on a day, or the last day for it. */
interface Day {
  readonly date: string;
  readonly kind: 'enter' | 'latest' | 'buy';
  readonly animals: readonly PlannedAnimals[];
  /** Day on which those that are bought go in. */
  readonly entry: string;
}

/** What is bought and goes in on which day, and the last days for it, a line for each, in the order of days. */
export function daysToKeep(voice: Voice, introductions: readonly PlannedIntroduction[]): Section[] {
  // The sort leaves what falls on one day in the order in which it stands here.
  const days = introductions.flatMap(daysOf).sort((one, other) => (one.date < other.date ? -1 : one.date > other.date ? 1 : 0));
  return days.length === 0 ? [] : under(say(voice.catalogue, 'plan.days'), [days.map((day) => item(sayDay(voice, day), 2))]);
}

function daysOf({ date, animals, latest }: PlannedIntroduction): Day[] {
  // Days written as yyyy-mm-dd sort as text. What goes in on the day it is bought has no day of its own for that.
  const bought = animals.filter(({ purchasedOn }) => purchasedOn !== undefined && purchasedOn < date);
  const days = [...new Set(bought.map(({ purchasedOn = date }) => purchasedOn))].sort();
  return [
    ...days.map((day): Day => ({ date: day, kind: 'buy', animals: bought.filter(({ purchasedOn }) => purchasedOn === day), entry: date })),
    { date, kind: 'enter', animals, entry: date },
    ...(latest === undefined ? [] : [{ date: latest, kind: 'latest' as const, animals, entry: date }]),
  ];
}

function sayDay(voice: Voice, { date, kind, animals, entry }: Day): string {
  const list = sayList(
    voice,
    animals.map((some) => sayAnimals(voice, some, kind === 'buy')),
  );
  const count = animals.reduce((sum, some) => sum + some.count, 0);
  return say(voice.catalogue, `plan.day.${kind}`, { date: sayDate(voice, date), list, count, entry: sayDate(voice, entry) });
}

/** So many of a species, with their length where they are yet to be found. */
function sayAnimals(voice: Voice, { species, count, length }: PlannedAnimals, withLength: boolean): string {
  return say(voice.catalogue, 'plan.animals', {
    count,
    name: voice.names.speciesName(species),
    ...(withLength && length !== undefined ? { length: sayQuantity(voice, length.value, length.unit) } : {}),
    each: count > 1 ? say(voice.catalogue, 'plan.each') : '',
  });
}
