import type { Basis } from '@commensal/schema';
import { weakest } from '../../quantity/basis.js';
import type { Stock, StockAnimal, StockTank } from '../../stock/stock.js';
import { arrivalOf, comers, isThere } from '../presence.js';
import { PASSED, type Telling, type Verdict } from '../rule.js';
import { type Place, placesFor } from './places.js';

/** One sort of shelter: the most that is asked for at a time, and how much there is. */
export interface CountedMeasure {
  readonly about: 'places';
  readonly place: Place;
  /** What animals ask for that cannot do without, on the day on which that is most; undefined where there are none. */
  readonly needed: Demand | undefined;
  /** The same with those that can. */
  readonly wanted: Demand;
  readonly there: number | undefined;
}

export interface Demand {
  readonly day: number;
  readonly animals: readonly StockAnimal[];
  readonly places: number;
  readonly basis: Basis;
}

const FIELD: Readonly<Record<Place, keyof StockTank['shelters']>> = {
  burrow: 'burrows',
  cave: 'caves',
  hole: 'holes',
  branches: 'branches',
};

export function measureCounted(stock: Stock, each: (measure: CountedMeasure) => void): void {
  const animals = comers(stock);
  for (const place of ['burrow', 'cave', 'hole', 'branches'] as const) {
    const claimants = animals.filter((animal) => needOf(animal, place) !== undefined);
    const wanted = most(stock, claimants, place);
    if (wanted === undefined) continue;
    const dependent = claimants.filter((animal) => needOf(animal, place)?.optional !== true);
    const needed = dependent.length === claimants.length ? wanted : most(stock, dependent, place);
    each({ about: 'places', place, needed, wanted, there: stock.tank.shelters[FIELD[place]] });
  }
}

const needOf = (animal: StockAnimal, place: Place) => animal.kind.record.needs?.shelter?.find(({ kind }) => kind === place);

/** Demand only rises on days on which an animal arrives; of equal days the first. */
function most(stock: Stock, claimants: readonly StockAnimal[], place: Place): Demand | undefined {
  let greatest: Demand | undefined;
  for (const day of [...new Set(claimants.map((animal) => arrivalOf(stock, animal)))].sort((one, other) => one - other)) {
    const animals = claimants.filter((animal) => isThere(stock, animal, day));
    const places = placesFor(animals, place);
    if (greatest !== undefined && places <= greatest.places) continue;
    greatest = { day, animals, places, basis: weakest(...animals.map((animal) => needOf(animal, place)?.basis ?? 'recalled')) };
  }
  return greatest;
}

export function judgeCounted({ needed, wanted, there }: CountedMeasure): Verdict {
  if (there === undefined)
    return { outcome: 'cantTell', level: needed === undefined ? 'note' : 'warning', message: 'shelter.placesUnknown' };
  if (needed !== undefined && needed.places > there) return { outcome: 'failed', level: 'warning', message: 'shelter.tooFew' };
  return wanted.places > there ? { outcome: 'failed', level: 'note', message: 'shelter.couldUse' } : PASSED;
}

export function tellCounted({ place, needed, wanted, there }: CountedMeasure, { message }: Verdict): Telling {
  const demand = message === 'shelter.couldUse' ? wanted : (needed ?? wanted);
  return {
    // The shelter is the part they play here, and so stands in the key.
    subjects: demand.animals.map((animal) => ({ id: animal.id, role: place })),
    data: {
      place: { keys: [place] },
      places: { value: demand.places, unit: '1' },
      ...(there === undefined
        ? { missing: { keys: [`tank.shelters.${FIELD[place]}`] } }
        : { there: { value: there, unit: '1' }, lacking: { value: demand.places - there, unit: '1' } }),
    },
    when: there === undefined ? null : demand.day,
    basis: demand.basis,
  };
}
