import type { Situation, SpeciesRecord } from '@commensal/schema';
import { situationProblems } from '@commensal/schema';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../../../../tests/support/runs.js';
import { deepFrozen, inventedSituation, inventedSpecies } from '../../tests/support/invented.js';
import { dayOf } from '../quantity/days.js';
import { libraryOf } from './library.js';
import { daysTogether, type StockAnimal } from './stock.js';
import { HORIZON_DAYS, stockOf } from './stock-of.js';

const TODAY = dayOf('2027-03-01');

const size: SpeciesRecord['size'] = {
  entry: { low: 3, high: 5, unit: 'cm', basis: 'practice' },
  totalPerStandard: { value: 1.25, low: 1.25, high: 1.25, unit: '1', basis: 'practice' },
};
const LIBRARY = libraryOf(
  ['unus-primus', 'unus-alter', 'duo-primus']
    .map((id) => deepFrozen(inventedSpecies(id, { size })))
    .concat(inventedSpecies('unus-vetus', { replacedBy: 'unus-alter' })),
);

/** The stock of a valid, frozen situation; and what kept animals out of it. */
function stocked(more: Partial<Situation>): ReturnType<typeof stockOf> {
  const situation = deepFrozen(inventedSituation(more));
  expect(situationProblems(situation)).toEqual([]);
  return stockOf(situation, LIBRARY);
}
const animalsOf = (more: Partial<Situation>): readonly StockAnimal[] => stocked(more).stock.animals;

describe('the days', () => {
  it('look three years ahead unless the settings say otherwise', () => {
    expect(stocked({}).stock).toMatchObject({ day: TODAY, horizonDay: TODAY + 1096 });
    expect(HORIZON_DAYS).toBe(1096);
    expect(stocked({ settings: { horizonDays: 90 } }).stock.horizonDay).toBe(TODAY + 90);
    expect(stocked({ settings: { horizonDays: 0 } }).stock.horizonDay).toBe(TODAY);
  });

  it('of rock re-laid and of a divider are day numbers', () => {
    const { stock } = stocked({
      events: [
        { kind: 'tank-divided', date: '2027-03-11', until: '2027-03-21' },
        { kind: 'rock-relaid', date: '2027-03-02' },
      ],
    });
    expect(stock.rockRelaidOn).toEqual([TODAY + 1]);
    expect(stock.divided).toEqual([{ from: TODAY + 10, until: TODAY + 20 }]);
  });
});

describe('animals', () => {
  it('a resident is measured on the day of the situation, unless another day is told', () => {
    const [one, other] = animalsOf({
      residents: [
        { id: 'a', species: 'unus-primus', length: { value: 6, unit: 'cm' }, enteredOn: '2027-02-01' },
        { id: 'b', species: 'unus-primus', length: { value: 60, unit: 'mm' }, measuredOn: '2027-01-30', enteredOn: '2027-02-01' },
      ],
    });
    expect(one).toMatchObject({ role: 'resident', count: 1, lengthDay: TODAY, entryDay: TODAY - 28, leaveDay: Number.POSITIVE_INFINITY });
    expect(other).toMatchObject({ lengthDay: TODAY - 30 });
    expect(one?.lengthCm).toEqual({ low: 6, centre: 6, high: 6, basis: 'measured' });
    expect(other?.lengthCm?.centre).toBeCloseTo(6, 12); // a product of decimal fractions is rounded
  });

  it('a standard length is turned into a total length by the ratio of its species', () => {
    const [animal] = animalsOf({ residents: [{ id: 'a', species: 'unus-primus', length: { value: 8, unit: 'cm', lengthType: 'SL' } }] });
    // 8 cm times 1.25; twelve decimals, for the logarithms on the way.
    expect(animal?.lengthCm?.centre).toBeCloseTo(10, 12);
    expect(animal?.lengthCm?.basis).toBe('practice');
  });

  it('a fork length without a ratio leaves a resident without a length', () => {
    const [animal] = animalsOf({ residents: [{ id: 'a', species: 'unus-primus', length: { value: 8, unit: 'cm', lengthType: 'FL' } }] });
    expect(animal?.lengthCm).toBeUndefined();
  });

  it('a newcomer without a length comes in at the size usually sold, on its day; a resident without one has none', () => {
    const [resident, newcomer] = animalsOf({
      residents: [{ id: 'a', species: 'unus-primus' }],
      introductions: [{ date: '2027-04-01', animals: [{ species: 'unus-alter' }] }],
    });
    expect(resident?.lengthCm).toBeUndefined();
    expect(newcomer).toMatchObject({ id: 'unus-alter', role: 'newcomer', entryDay: TODAY + 31, lengthDay: TODAY + 31 });
    expect(newcomer?.lengthCm).toEqual({ low: 3, centre: 4, high: 5, basis: 'practice' });
  });

  it('a newcomer with a length, an id, a name, a number and a sex keeps them', () => {
    const [newcomer] = animalsOf({
      introductions: [
        {
          date: '2027-04-01',
          animals: [{ id: 'pip', name: 'Pip', species: 'unus-alter', count: 3, sex: 'female', length: { value: 2, unit: '[in_i]' } }],
        },
      ],
    });
    expect(newcomer).toMatchObject({ id: 'pip', name: 'Pip', count: 3, sex: 'female', lengthCm: { centre: 5.08 } });
  });

  it('animals of one species share one kind', () => {
    const [one, other] = animalsOf({
      residents: [{ id: 'a', species: 'unus-primus' }],
      introductions: [{ date: '2027-04-01', animals: [{ species: 'unus-primus' }] }],
    });
    expect(one?.kind).toBe(other?.kind);
  });

  it('a replaced species leads to its successor', () => {
    const [animal] = animalsOf({ residents: [{ id: 'a', species: 'unus-vetus' }] });
    expect(animal?.kind.id).toBe('unus-alter');
  });
});

describe('wishes', () => {
  it('one animal, of middling priority, at the size usually sold, unless told otherwise', () => {
    expect(stocked({ wishes: [{ species: 'unus-primus' }] }).stock.wishes).toMatchObject([
      { least: 1, most: 1, priority: 5, entryCm: { centre: 4 } },
    ]);
    expect(
      stocked({ wishes: [{ species: 'unus-primus', count: [2, 6], priority: 9, length: { low: 2, high: 3, unit: 'cm' } }] }).stock.wishes,
    ).toMatchObject([{ least: 2, most: 6, priority: 9, entryCm: { low: 2, centre: 2.5, high: 3 } }]);
  });
});

describe('species without a record', () => {
  it('each place that names one gives a problem with its pointer, and the rest of the stock is there', () => {
    const { stock, problems } = stocked({
      residents: [
        { id: 'a', species: 'unus-primus' },
        { id: 'b', species: 'unus-nullus' },
      ],
      introductions: [{ date: '2027-04-01', animals: [{ species: 'unus-alter' }, { id: 'c', species: 'unus-nullus' }] }],
      wishes: [{ species: 'duo-primus' }, { species: 'unus-nemo' }],
    });
    expect(problems.map(({ code, pointer, found }) => `${code} ${pointer} ${found}`)).toEqual([
      'unknown-species /residents/1/species "unus-nullus"',
      'unknown-species /introductions/0/animals/1/species "unus-nullus"',
      'unknown-species /wishes/1/species "unus-nemo"',
    ]);
    for (const problem of problems) expect(problem.fix.length * problem.allowed.length).toBeGreaterThan(0);
    expect(stock.animals.map((animal) => animal.id)).toEqual(['a', 'unus-alter']);
    expect(stock.wishes.map((wish) => wish.kind.id)).toEqual(['duo-primus']);
  });
});

describe('animals that are taken out', () => {
  const group = { id: 'trio', species: 'unus-primus', count: 3 };
  const removed = (animal: string, date: string): NonNullable<Situation['events']>[number] => ({ kind: 'animal-removed', date, animal });
  const told = (...events: NonNullable<Situation['events']>): string[] =>
    animalsOf({ residents: [group], events }).map(
      ({ id, count, leaveDay }) => `${count} ${id} until ${leaveDay === Infinity ? 'the end' : leaveDay - TODAY}`,
    );

  it('one leaves a group, and the rest stay together under the old id', () => {
    expect(told(removed('trio#2', '2027-03-11'))).toEqual(['2 trio until the end', '1 trio#2 until 10']);
  });

  it('all of a group leave by their common id', () => {
    expect(told(removed('trio', '2027-03-11'))).toEqual(['3 trio until 10']);
  });

  it('all of a group leave one by one', () => {
    expect(told(removed('trio#1', '2027-03-11'), removed('trio#2', '2027-03-12'), removed('trio#3', '2027-03-13'))).toEqual([
      '1 trio#1 until 10',
      '1 trio#2 until 11',
      '1 trio#3 until 12',
    ]);
  });

  it('one leaves first and the rest later, in whichever order the document says so', () => {
    const expected = ['2 trio until 20', '1 trio#2 until 10'];
    expect(told(removed('trio#2', '2027-03-11'), removed('trio', '2027-03-21'))).toEqual(expected);
    expect(told(removed('trio', '2027-03-21'), removed('trio#2', '2027-03-11'))).toEqual(expected);
    expect(told(removed('trio', '2027-03-11'), removed('trio#2', '2027-03-21'))).toEqual(['3 trio until 10']);
  });

  it('of two days for one animal the first counts', () => {
    expect(told(removed('trio', '2027-03-21'), removed('trio', '2027-03-11'))).toEqual(['3 trio until 10']);
    expect(told(removed('trio', '2027-03-11'), removed('trio', '2027-03-21'))).toEqual(['3 trio until 10']);
  });
});

describe('daysTogether', () => {
  it('runs from the later entry to the day before the first leaves, within today and the horizon', () => {
    const { stock } = stocked({
      residents: [
        { id: 'a', species: 'unus-primus', enteredOn: '2027-02-01' },
        { id: 'b', species: 'unus-primus' },
      ],
      introductions: [{ date: '2027-03-11', animals: [{ id: 'c', species: 'unus-alter' }] }],
      events: [{ kind: 'animal-removed', animal: 'b', date: '2027-03-21' }],
      settings: { horizonDays: 100 },
    });
    const [a, b, c] = ['a', 'b', 'c'].map((id) => stock.animals.find((animal) => animal.id === id) as StockAnimal) as [
      StockAnimal,
      StockAnimal,
      StockAnimal,
    ];
    expect(daysTogether(stock, a, c)).toEqual({ from: TODAY + 10, until: TODAY + 100 });
    expect(daysTogether(stock, a, b)).toEqual({ from: TODAY, until: TODAY + 19 });
    expect(daysTogether(stock, c, b)).toEqual(daysTogether(stock, b, c));
    expect(daysTogether(stock, { ...c, entryDay: TODAY + 19 }, b)).toEqual({ from: TODAY + 19, until: TODAY + 19 });
    expect(daysTogether(stock, { ...c, entryDay: TODAY + 20 }, b)).toBeUndefined();
    expect(daysTogether(stock, { ...c, entryDay: TODAY + 101 }, a)).toBeUndefined();
  });
});

describe('settings and keeper', () => {
  it('have defaults where nothing is told', () => {
    const { stock } = stocked({});
    expect(stock.settings).toEqual({
      thresholds: {},
      off: [],
      accepted: [],
      whenUncertain: 'avoid',
      priorities: 'add-up',
      notBefore: undefined,
    });
    expect(stock.keeper).toEqual({ careTier: undefined, provisions: [] });
  });

  it('are passed on', () => {
    const told = { whenUncertain: 'allow', off: ['gape'], thresholds: { 'entry-gap': { gapDays: 14 } }, priorities: 'strict' } as const;
    const { stock } = stocked({
      keeper: { careTier: 2, provisions: ['tight-lid'] },
      settings: { ...told, off: [...told.off], notBefore: '2027-03-02' },
    });
    expect(stock.settings).toEqual({ ...told, accepted: [], notBefore: stock.day + 1 });
    expect(stock.keeper).toEqual({ careTier: 2, provisions: ['tight-lid'] });
  });
});

it('the order of residents, of introductions and of the animals in them does not matter', () => {
  const residents = ['a', 'b', 'c', 'd'].map((id, at) => ({
    id,
    species: 'unus-primus',
    ...(at % 2 === 0 ? {} : { enteredOn: `2027-02-0${at}` }),
  }));
  const introductions = [
    { date: '2027-04-01', animals: ['x', 'y', 'z'].map((id) => ({ id, species: 'unus-alter' })) },
    { date: '2027-05-01', animals: ['v', 'w'].map((id) => ({ id, species: 'duo-primus' })) },
  ];
  const events = ['b', 'x', 'b'].map((animal, at) => ({ kind: 'animal-removed' as const, animal, date: `2027-06-0${at + 1}` }));
  const shuffled = <T>(items: readonly T[]): fc.Arbitrary<T[]> => fc.shuffledSubarray([...items], { minLength: items.length });
  const expected = animalsOf({ residents, introductions, events });
  fc.assert(
    fc.property(
      shuffled(residents),
      fc
        .tuple(...introductions.map(({ date, animals }) => shuffled(animals).map((inOrder) => ({ date, animals: inOrder }))))
        .chain(shuffled),
      shuffled(events),
      (someResidents, someIntroductions, someEvents) => {
        expect(animalsOf({ residents: someResidents, introductions: someIntroductions, events: someEvents })).toEqual(expected);
      },
    ),
    { numRuns: runs(50) },
  );
});
