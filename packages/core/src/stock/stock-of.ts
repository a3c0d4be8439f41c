import type { BodyLength, Newcomer, Problem, Resident, Situation, Wish } from '@commensal/schema';
import type { Band } from '../quantity/band.js';
import { bandOf } from '../quantity/band.js';
import { dayOf } from '../quantity/days.js';
import { kindOf, lengthOf } from './kind-of.js';
import { type Library, recordOf } from './library.js';
import type { Stock, StockAnimal, StockKind, StockWish } from './stock.js';
import { holding, laidOut } from './same-shape.js';
import { tankOf } from './tank-of.js';

/** How far ahead rules look when the settings do not say: three years. */
export const HORIZON_DAYS = 1096;

const NONE_KNOWN: ReadonlyMap<string, StockKind> = new Map();

/** A stock, and what kept parts of the situation out of it. With problems the stock lacks the animals they are about. */
export interface Stocking {
  readonly stock: Stock;
  readonly problems: readonly Problem[];
}

/**
 * Resolves a valid situation against species records. Ids of replaced records lead to their successors; a species without a
 * record gives a problem `unknown-species`, never an exception.
 *
 * Residents' lengths count from `measuredOn`, else from the day of the situation; newcomers without a length come in at the
 * size usually sold. Where many situations are resolved against one library, `known` holds kinds that were resolved before, by their id.
 */
export function stockOf(situation: Situation, library: Library, known: ReadonlyMap<string, StockKind> = NONE_KNOWN): Stocking {
  const problems: Problem[] = [];
  const kinds = new Map<string, StockKind | undefined>(known);
  const day = dayOf(situation.date);
  const settings = situation.settings ?? {};

  const kindAt = (species: string, pointer: string): StockKind | undefined => {
    if (!kinds.has(species)) {
      const record = recordOf(library, species);
      kinds.set(species, record === undefined ? undefined : kindOf(record, library.standIns));
    }
    const kind = kinds.get(species);
    if (kind === undefined) problems.push(unknownSpecies(species, pointer));
    return kind;
  };

  const animals: StockAnimal[] = [];
  (situation.residents ?? []).forEach((resident, index) => {
    const kind = kindAt(resident.species, `/residents/${index}/species`);
    if (kind !== undefined) animals.push(residentOf(resident, kind, day));
  });
  (situation.introductions ?? []).forEach((introduction, at) => {
    introduction.animals.forEach((newcomer, index) => {
      const kind = kindAt(newcomer.species, `/introductions/${at}/animals/${index}/species`);
      if (kind !== undefined) animals.push(newcomerOf(newcomer, kind, dayOf(introduction.date)));
    });
  });
  const wishes: StockWish[] = [];
  (situation.wishes ?? []).forEach((wish, index) => {
    const kind = kindAt(wish.species, `/wishes/${index}/species`);
    if (kind !== undefined) wishes.push(wishOf(wish, kind));
  });

  const events = situation.events ?? [];
  const removals = new Map<string, number>();
  for (const event of events) {
    // What has left does not leave again: of two days for one animal the first counts.
    if (event.kind === 'animal-removed') removals.set(event.animal, Math.min(dayOf(event.date), removals.get(event.animal) ?? Infinity));
  }

  return {
    problems,
    stock: holding(
      {
        day,
        horizonDay: day + (settings.horizonDays ?? HORIZON_DAYS),
        tank: tankOf(situation.tank),
        keeper: { careTier: situation.keeper?.careTier, provisions: situation.keeper?.provisions ?? [] },
        wishes,
        rockRelaidOn: events.filter((event) => event.kind === 'rock-relaid').map((event) => dayOf(event.date)),
        divided: events
          .filter((event) => event.kind === 'tank-divided')
          .map((event) => ({ from: dayOf(event.date), until: dayOf(event.until) })),
        settings: {
          thresholds: settings.thresholds ?? {},
          off: settings.off ?? [],
          accepted: settings.accepted ?? [],
          whenUncertain: settings.whenUncertain ?? 'avoid',
          priorities: settings.priorities ?? 'add-up',
          notBefore: settings.notBefore === undefined ? undefined : dayOf(settings.notBefore),
        },
      },
      inEntryOrder(animals.flatMap((animal) => withRemovals(animal, removals))),
    ),
  };
}

function unknownSpecies(species: string, pointer: string): Problem {
  return {
    code: 'unknown-species',
    pointer,
    found: `"${species}"`,
    allowed: 'the id of a species record',
    fix: 'Write the id as genus and species in lower case, joined by a hyphen.',
  };
}

/** A keeper's length of an animal as total length in cm. */
function readLength(length: BodyLength | undefined, kind: StockKind): Band | undefined {
  if (length === undefined) return undefined;
  const read = bandOf(length, 'cm');
  const type = length.lengthType ?? 'TL';
  if (type !== 'SL' && type !== 'FL') return read;
  return lengthOf(
    { low: read.low, value: read.centre, high: read.high, unit: 'cm', lengthType: type, basis: 'measured' },
    kind.record,
    kind.totalPerStandard,
  );
}

function residentOf(resident: Resident, kind: StockKind, day: number): StockAnimal {
  const enteredOn = resident.enteredOn === undefined ? undefined : dayOf(resident.enteredOn);
  return {
    id: resident.id,
    name: resident.name,
    kind,
    count: resident.count ?? 1,
    role: 'resident',
    sex: resident.sex,
    origin: resident.origin,
    purchaseDay: undefined,
    lengthCm: readLength(resident.length, kind),
    lengthDay: resident.measuredOn === undefined ? day : dayOf(resident.measuredOn),
    entryDay: enteredOn,
    leaveDay: Number.POSITIVE_INFINITY,
  };
}

function newcomerOf(newcomer: Newcomer, kind: StockKind, entryDay: number): StockAnimal {
  return {
    id: newcomer.id ?? newcomer.species,
    name: newcomer.name,
    kind,
    count: newcomer.count ?? 1,
    role: 'newcomer',
    sex: newcomer.sex,
    origin: newcomer.origin,
    purchaseDay: newcomer.purchasedOn === undefined ? undefined : dayOf(newcomer.purchasedOn),
    lengthCm: readLength(newcomer.length, kind) ?? kind.entryCm,
    lengthDay: entryDay,
    entryDay,
    leaveDay: Number.POSITIVE_INFINITY,
  };
}

function wishOf(wish: Wish, kind: StockKind): StockWish {
  const [least = 1, most = 1] = wish.count ?? [];
  return {
    kind,
    least,
    most,
    priority: wish.priority ?? 5,
    must: wish.must === true,
    origin: wish.origin,
    entryCm: readLength(wish.length, kind) ?? kind.entryCm,
  };
}

/** A line splits where one of its animals leaves: the rest stay together under the old id. */
function withRemovals(animal: StockAnimal, removals: ReadonlyMap<string, number>): StockAnimal[] {
  const leaveDay = removals.get(animal.id) ?? animal.leaveDay;
  const parts: StockAnimal[] = [];
  let staying = animal.count;
  for (let n = 1; n <= animal.count; n += 1) {
    const day = removals.get(`${animal.id}#${n}`);
    if (day === undefined || day >= leaveDay) continue;
    staying -= 1;
    parts.push(laidOut({ ...animal, id: `${animal.id}#${n}`, count: 1, leaveDay: day }));
  }
  if (staying > 0) parts.unshift(laidOut({ ...animal, count: staying, leaveDay }));
  return parts;
}

/** A fixed order whatever the order of the document: residents, then newcomers by day, then by id. */
export const inEntryOrder = (animals: readonly StockAnimal[]): StockAnimal[] => [...animals].sort(byEntry);

function byEntry(one: StockAnimal, other: StockAnimal): number {
  if (one.role !== other.role) return one.role === 'resident' ? -1 : 1;
  const oneDay = one.entryDay ?? Number.NEGATIVE_INFINITY;
  const otherDay = other.entryDay ?? Number.NEGATIVE_INFINITY;
  if (oneDay !== otherDay) return oneDay < otherDay ? -1 : 1;
  return one.id < other.id ? -1 : one.id > other.id ? 1 : 0;
}
