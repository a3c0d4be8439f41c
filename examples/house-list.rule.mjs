/** A rule of the Lantern Club, which does not exist: what its members keep, and how many of a kind. */

/** The club writes into `extensions` of a record what it thinks of a species: `{ "listed": "no" }` or `{ "listed": "ask" }`. */
const listedAs = (animal) => animal.kind.record.extensions?.lanternclub?.listed;

/** @type {import('@commensal/core').Rule<import('@commensal/core').StockAnimal, 'mostOfAKind'>} */
export const houseList = {
  id: 'lanternclub/house-list',
  question: 'Does the club keep this animal, and so many of it?',
  scope: 'animal',
  planning: 'option',
  monotone: { water: 'neither', rock: 'neither', fewerAnimals: 'better', delay: 'neither' },
  needs: ['extensions.lanternclub'],
  sources: [],
  defaults: {
    mostOfAKind: { value: 6, unit: '1', basis: 'choice', note: 'So many of one kind go into a tank of the club.' },
  },

  measure(stock, options, each) {
    for (const animal of stock.animals) each(animal);
  },

  judge(animal, { mostOfAKind }) {
    if (listedAs(animal) === 'no') return { outcome: 'failed', level: 'error', message: 'lanternclub/house-list.notKept' };
    if (animal.count > mostOfAKind) return { outcome: 'failed', level: 'error', message: 'lanternclub/house-list.tooMany' };
    if (listedAs(animal) === 'ask') return { outcome: 'cantTell', level: 'warning', message: 'lanternclub/house-list.ask' };
    return { outcome: 'passed', level: 'note', message: '' };
  },

  tell(animal, verdict, stock, { mostOfAKind }) {
    return {
      subjects: [{ id: animal.id, role: 'animal' }],
      data: { count: { value: animal.count, unit: '1' }, most: { value: mostOfAKind, unit: '1' } },
      when: null,
      basis: 'practice',
    };
  },
};

/** Its sentences. Braces stand for slots; where a sentence has to choose, it is a function of them. */
export const english = {
  'question.lanternclub/house-list': 'Does the club keep this animal, and so many of it?',
  'lanternclub/house-list.notKept': 'The club does not keep {animal}.',
  'lanternclub/house-list.tooMany': ({ animal, count, most }) => `${count} of ${animal} are more than the ${most} that the club keeps of one kind.`,
  'lanternclub/house-list.ask': 'Ask the committee about {animal} first.',
};

export const german = {
  'question.lanternclub/house-list': 'Hält der Verein dieses Tier, und so viele davon?',
  'lanternclub/house-list.notKept': 'Der Verein hält dieses Tier nicht: {animal}.',
  'lanternclub/house-list.tooMany': 'Zu viele für den Verein ({animal}): {count}, höchstens {most} von einer Art.',
  'lanternclub/house-list.ask': 'Zuerst den Vorstand fragen: {animal}.',
};
