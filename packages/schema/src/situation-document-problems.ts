import { documentProblems, duplicateProblems, wrongOrder } from './document-problems.js';
import type { Situation } from './generated/situation.js';
import { placeName } from './pointer.js';
import type { Problem } from './problem.js';
import { didYouMean, valueWords } from './words.js';

interface Entry {
  readonly id: string;
  readonly count: number;
  readonly pointer: string;
}

/** Residents and newcomers, who share one set of ids. */
function entriesOf(situation: Situation): Entry[] {
  const residents = (situation.residents ?? []).map(({ id, count }, index) => ({
    id,
    count: count ?? 1,
    pointer: `/residents/${index}/id`,
  }));
  const newcomers = (situation.introductions ?? []).flatMap(({ animals }, day) =>
    animals.map(({ id, species, count }, index) => ({
      id: id ?? species,
      count: count ?? 1,
      pointer: `/introductions/${day}/animals/${index}/${id === undefined ? 'species' : 'id'}`,
    })),
  );
  return [...residents, ...newcomers];
}

/** How many animals each id stands for. A plan names what is wished for by its species. */
function countsOf(situation: Situation, entries: readonly Entry[]): Map<string, number> {
  const counts = new Map((situation.wishes ?? []).map(({ species, count }) => [species, count?.[1] ?? 1]));
  for (const { id, count } of entries) counts.set(id, count);
  return counts;
}

function unknownAnimal(pointer: string, animal: string, counts: ReadonlyMap<string, number>): Problem[] {
  const [id = '', number] = animal.split('#');
  const count = counts.get(id);
  if (count !== undefined && (number === undefined || (count > 1 && Number(number) <= count))) return [];
  const problem = { code: 'unknown-animal', pointer, found: `${placeName(pointer)} names ${valueWords(animal)}` };
  if (count === undefined) {
    const fix = didYouMean(id, [...counts.keys()], 'Name a resident or a newcomer by its id.');
    return [{ ...problem, allowed: 'no resident, newcomer or wish has this id', fix }];
  }
  const fix = count === 1 ? `Write "${id}".` : `Write a number from 1 to ${count}, or "${id}" for all of them.`;
  return [{ ...problem, allowed: count === 1 ? `"${id}" is a single animal` : `"${id}" is a group of ${count}`, fix }];
}

/**
 * What the schema cannot say of a situation: every id belongs to one animal or group, every animal named is
 * there, counts and days are in order. An acceptance may name animals that have left: check reports it as stale.
 * The situation must have passed the schema.
 *
 * @example
 * situationDocumentProblems(situation) // []
 */
export function situationDocumentProblems(situation: Situation): Problem[] {
  const entries = entriesOf(situation);
  const counts = countsOf(situation, entries);
  const wishes = (situation.wishes ?? []).flatMap(({ count }, index) => {
    const [least = 1, most = 1] = count ?? [];
    return least <= most ? [] : [wrongOrder('band-order', `/wishes/${index}/count/0`, 'the fewest', least, 'the most', most)];
  });
  const events = (situation.events ?? []).flatMap((event, index) => {
    if (event.kind === 'animal-removed') return unknownAnimal(`/events/${index}/animal`, event.animal, counts);
    // Days written as yyyy-mm-dd sort as text.
    if (event.kind !== 'tank-divided' || event.date <= event.until) return [];
    return [wrongOrder('date-order', `/events/${index}/date`, 'the first day', event.date, 'the last day', event.until)];
  });
  return [
    ...duplicateProblems(entries, 'Give one of them an id of its own; an id is never used again, even after its animal has left.'),
    ...wishes,
    ...events,
    ...documentProblems(situation),
  ];
}
