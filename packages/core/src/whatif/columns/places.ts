import { lengthShortOf } from '../../biology/length-after.js';
import { rockClaim } from '../../biology/rock-claim.js';
import { type UsualBuild, usualBuild } from '../../biology/usual-weight.js';
import { logWeightEquivalentLength } from '../../biology/weight-equivalent-length.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import { ownBuildOf } from '../../rules/strength.js';
import type { StockAnimal, StockKind } from '../../stock/stock.js';
import type { BandColumns, Columns } from './columns.js';

/**
 * Animals on days, each pair of them a place with a number, and what they are there: worked out once a scenario for all rules, in loops over arrays, which is many times
 * faster than one by one as they are asked for. Places at the start of growth and from the horizon on are worked out in each scenario: on all days between, lengths, strengths and
 * claims lie between. Places on other days are worked out where bounds do not tell.
 */
export interface Places {
  readonly columns: Columns;
  /** The place of an animal on a day; asked for before scenarios run. */
  readonly placeOf: (animal: number, day: number) => number;
  /** The places of an animal as it was measured, and at the horizon or on a later day that is looked at. */
  readonly startOf: (animal: number) => number;
  readonly endOf: (animal: number, day: number) => number;
  /** The place of an animal at the horizon, -1 where nobody has asked for it. */
  readonly horizonOf: (animal: number) => number;
  /** The places at which the animal of a place is as strong and as weak as it can be on its day, by what is worked out first. */
  readonly strongestOn: (place: number) => number;
  readonly weakestOn: (place: number) => number;
  /** Whether a place lies between start and horizon. */
  readonly isOnOtherDay: (place: number) => boolean;
  /** From now on the strength of the animal of a place is worked out from the horizon on in each scenario: many are asked for less often than that. */
  readonly needStrength: (place: number) => void;
  /** Makes room for all places that were asked for. */
  readonly layOut: () => void;
  isLaidOut: boolean;
  /** Total length in cm, natural logarithm of the weight-equivalent length, claim of one animal in litres of rock and the square of how far it may be out. */
  lengths: Float64Array;
  logs: Float64Array;
  claims: Float64Array;
  squares: Float64Array;
  animalAt: Int32Array;
  yearsAt: Float64Array;
  /** Places at the start, and those from the horizon on. */
  starts: Int32Array;
  ends: Int32Array;
  /** Those of the latter of which strengths are worked out in each scenario. */
  strengths: Int32Array;
  /** By place those of the same animal at the start and at the horizon or later, and how much of the time between is over. */
  startAt: Int32Array;
  endAt: Int32Array;
  shareAt: Float64Array;
  /** By place, the scenario for which it was worked out; and room for a list of places. */
  workedOutIn: Float64Array;
  room: Int32Array;
  /** Whether any claim varies, or the adult length that it belongs to. */
  readonly claimsVary: boolean;
  /** The scenario for which places at the start and from the horizon on were worked out. */
  endsIn: number;
  readonly bands: Readonly<Record<'length' | 'asymptote' | 'rate' | 'standard' | 'depth' | 'claim' | 'adult', BandColumns>>;
  readonly builds: Builds;
}

/** How weight follows from length, animal by animal. */
interface Builds {
  /** By the figures of the species; of others, by the usual build that was met last. */
  readonly hasOwn: Uint8Array;
  /** Those whose own figures are fitted to standard lengths. */
  readonly byStandard: Int32Array;
  readonly logA: Float64Array;
  readonly exponent: Float64Array;
  readonly perTotal: Float64Array;
  readonly usual: (UsualBuild | undefined)[];
  /** Whose builds are not those of the scenario before. */
  readonly changed: Uint8Array;
}

type PlaceSort = 'start' | 'end' | 'day';

export function placesOn(columns: Columns): Places {
  const { stock, ofAnimals } = columns;
  const placed: { readonly animal: number; readonly day: number }[] = [];
  const numbers = new Map<string, number>();
  const strong = new Set<number>();
  const animalOf = (at: number): StockAnimal => stock.animals[at] as StockAnimal;
  const numberOf = (animal: number, day: number): number | undefined => numbers.get(`${animal} ${day}`);
  const placeOf = (animal: number, day: number): number => {
    const there = numberOf(animal, day);
    if (there !== undefined) return there;
    numbers.set(`${animal} ${day}`, placed.length);
    places.isLaidOut = false;
    return placed.push({ animal, day }) - 1;
  };
  const startOf = (animal: number): number => placeOf(animal, animalOf(animal).lengthDay);
  const endOf = (animal: number, day: number): number => placeOf(animal, Math.max(stock.horizonDay, day));
  const sortOf = (place: number): PlaceSort => {
    const { animal, day } = placed[place] as (typeof placed)[number];
    return day === animalOf(animal).lengthDay ? 'start' : day >= stock.horizonDay ? 'end' : 'day';
  };
  const layOut = (): void => {
    const room = (): Float64Array => new Float64Array(placed.length);
    [places.lengths, places.logs, places.claims, places.squares] = [room(), room(), room(), room()];
    places.workedOutIn = room();
    places.room = new Int32Array(placed.length);
    places.animalAt = Int32Array.from(placed, ({ animal }) => animal);
    places.yearsAt = Float64Array.from(placed, ({ animal, day }) => yearsSince(animalOf(animal), day));
    const ofSort = (sort: PlaceSort): Int32Array => Int32Array.from(placed.keys()).filter((place) => sortOf(place) === sort);
    [places.starts, places.ends] = [ofSort('start'), ofSort('end')];
    places.strengths = places.ends.filter((place) => strong.has(places.animalAt[place] as number));
    places.startAt = Int32Array.from(placed, ({ animal }) => numberOf(animal, animalOf(animal).lengthDay) ?? -1);
    places.endAt = Int32Array.from(placed, ({ animal, day }) => numberOf(animal, Math.max(day, stock.horizonDay)) ?? -1);
    places.shareAt = Float64Array.from(placed, (_, place) => {
      const inAll = places.yearsAt[places.endAt[place] as number] ?? 0;
      return inAll > 0 ? (places.yearsAt[place] as number) / inAll : 0;
    });
    places.isLaidOut = true;
  };
  const own = stock.animals.map(({ kind }) => ownBuildOf(kind));
  const places: Places = {
    columns,
    placeOf,
    startOf,
    endOf,
    horizonOf: (animal) => numberOf(animal, stock.horizonDay) ?? -1,
    strongestOn: (place) => {
      const { animal, day } = placed[place] as (typeof placed)[number];
      return endOf(animal, day);
    },
    weakestOn: (place) => (sortOf(place) === 'end' ? place : startOf((placed[place] as (typeof placed)[number]).animal)),
    isOnOtherDay: (place) => sortOf(place) === 'day',
    needStrength: (place) => {
      strong.add((placed[place] as (typeof placed)[number]).animal);
      places.isLaidOut = false;
    },
    layOut,
    isLaidOut: true,
    lengths: new Float64Array(0),
    logs: new Float64Array(0),
    claims: new Float64Array(0),
    squares: new Float64Array(0),
    animalAt: new Int32Array(0),
    yearsAt: new Float64Array(0),
    starts: new Int32Array(0),
    ends: new Int32Array(0),
    strengths: new Int32Array(0),
    startAt: new Int32Array(0),
    endAt: new Int32Array(0),
    shareAt: new Float64Array(0),
    workedOutIn: new Float64Array(0),
    room: new Int32Array(0),
    claimsVary: !stock.animals.every(({ kind }) => columns.isFixed(kind.rockClaimL) && columns.isFixed(kind.adultCm)),
    endsIn: 0,
    bands: {
      length: ofAnimals('length'),
      asymptote: ofAnimals('asymptote'),
      rate: ofAnimals('rate'),
      standard: ofAnimals('standard'),
      depth: ofAnimals('depth'),
      claim: ofAnimals('claim'),
      adult: ofAnimals('adult'),
    },
    builds: {
      hasOwn: Uint8Array.from(own, (build) => (build === undefined ? 0 : 1)),
      byStandard: Int32Array.from(own.flatMap((build, at) => (build !== undefined && isByStandard(animalOf(at)) ? [at] : []))),
      logA: Float64Array.from(own, (build) => Math.log(build?.a ?? Number.NaN)),
      exponent: Float64Array.from(own, (build) => build?.b ?? Number.NaN),
      perTotal: Float64Array.from(own, (build) => build?.perTotal ?? 1),
      usual: own.map(() => undefined),
      changed: new Uint8Array(own.length),
    },
  };
  return places;
}

/** Works out the places at the start and from the horizon on, unless that is done for the scenario that the columns hold. */
export function needEnds(places: Places): void {
  if (places.endsIn === places.columns.scenario) return;
  places.endsIn = places.columns.scenario;
  if (!places.isLaidOut) places.layOut();
  takeBuilds(places);
  const { starts, ends, strengths, lengths, animalAt, workedOutIn, bands, builds } = places;
  const { changed } = builds;
  // Lengths told do not vary in most studies: then nothing is worked out anew.
  let isAnew = places.claimsVary;
  for (let index = 0; index < starts.length && !isAnew; index += 1) {
    const place = starts[index] as number;
    const at = animalAt[place] as number;
    isAnew = changed[at] === 1 || lengths[place] !== bands.length.centre[at];
  }
  if (isAnew) workOut(places, starts);
  workOutLengths(places, ends, ends.length);
  workOutLogs(places, strengths, strengths.length);
  workOutClaims(places, ends, ends.length);
  for (let index = 0; index < strengths.length; index += 1) workedOutIn[strengths[index] as number] = places.endsIn;
}

/** What a logarithm of a weight adds to that of the length that belongs to it. */
const PER_LOG_WEIGHT: number = logWeightEquivalentLength(1) - logWeightEquivalentLength(0);

/** The most by which the logarithm of the strength of an animal grows, a year. */
function growthOf({ bands: { length, asymptote, rate }, builds: { exponent } }: Places, at: number): number {
  const left = (asymptote.centre[at] as number) / (length.centre[at] as number) - 1;
  // Without a curve an animal stays as it is.
  return left > 0 ? PER_LOG_WEIGHT * (exponent[at] as number) * (rate.centre[at] as number) * left : 0;
}

/** Those places of a list that are not worked out in each scenario. */
export const placesToNeed = ({ isOnOtherDay }: Places, list: readonly number[]): Int32Array =>
  Int32Array.from(new Set(list.filter(isOnOtherDay)));

/** Works out these besides, save those that are. */
export function need(places: Places, list: Int32Array): void {
  const { workedOutIn, columns, room } = places;
  let many = 0;
  for (let index = 0; index < list.length; index += 1) {
    const place = list[index] as number;
    if (workedOutIn[place] === columns.scenario) continue;
    workedOutIn[place] = columns.scenario;
    room[many] = place;
    many += 1;
  }
  if (many > 0) workOut(places, room, many);
}

/** The logarithm of a strength at a place is no less than on the chord from the start to the end: it grows ever more slowly. */
export function logAtLeast({ logs, startAt, endAt, shareAt }: Places, place: number): number {
  const start = logs[startAt[place] as number] as number;
  return start + ((logs[endAt[place] as number] as number) - start) * (shareAt[place] as number);
}

/** It is no more than at the end, nor than with growth as fast as at the start. */
export function logAtMost(places: Places, place: number): number {
  const { logs, startAt, endAt, animalAt, yearsAt } = places;
  const straight = (logs[startAt[place] as number] as number) + growthOf(places, animalAt[place] as number) * (yearsAt[place] as number);
  return Math.min(straight, logs[endAt[place] as number] as number);
}

/** One figure after the other: engines keep up best with short loops. */
function workOut(places: Places, list: Int32Array, many: number = list.length): void {
  workOutLengths(places, list, many);
  workOutLogs(places, list, many);
  workOutClaims(places, list, many);
}

function workOutLengths({ lengths, animalAt, yearsAt, bands }: Places, list: Int32Array, many: number): void {
  const starts = bands.length.centre;
  const asymptotes = bands.asymptote.centre;
  const rates = bands.rate.centre;
  for (let index = 0; index < many; index += 1) {
    const place = list[index] as number;
    const at = animalAt[place] as number;
    const start = starts[at] as number;
    const years = yearsAt[place] as number;
    if (years === 0) lengths[place] = start;
    else {
      const grown = lengthShortOf(start, asymptotes[at] as number, Math.exp(-(rates[at] as number) * years));
      // Without a curve an animal stays as it is.
      lengths[place] = Number.isNaN(grown) ? start : grown;
    }
  }
}

function workOutLogs({ lengths, logs, animalAt, builds: { logA, exponent, perTotal } }: Places, list: Int32Array, many: number): void {
  for (let index = 0; index < many; index += 1) {
    const place = list[index] as number;
    const at = animalAt[place] as number;
    const logLength = Math.log((lengths[place] as number) * (perTotal[at] as number));
    logs[place] = logWeightEquivalentLength((logA[at] as number) + (exponent[at] as number) * logLength);
  }
}

function workOutClaims({ lengths, claims, squares, animalAt, bands }: Places, list: Int32Array, many: number): void {
  const adults = bands.adult.centre;
  const fulls = bands.claim.centre;
  const fullsAtMost = bands.claim.high;
  for (let index = 0; index < many; index += 1) {
    const place = list[index] as number;
    const at = animalAt[place] as number;
    const full = fulls[at] as number;
    if (full === 0) {
      claims[place] = 0;
      squares[place] = 0;
      continue;
    }
    const adult = adults[at] as number;
    // Lengths beyond adult size claim no more; without a length the full claim stands.
    const claimed = rockClaim(full, Math.min(adult, lengths[place] as number), adult);
    const litres = Number.isNaN(claimed) ? full : claimed;
    claims[place] = litres;
    const out = litres * ((fullsAtMost[at] as number) / full - 1);
    squares[place] = out * out;
  }
}

/** What animals without figures of their own usually weigh, by their depth; and how long those are that are weighed by their standard length. */
function takeBuilds({ builds, bands: { depth, standard } }: Places): void {
  const { hasOwn, byStandard, logA, exponent, perTotal, usual, changed } = builds;
  for (let index = 0; index < byStandard.length; index += 1) {
    const at = byStandard[index] as number;
    const per = 1 / (standard.centre[at] as number);
    changed[at] = per === perTotal[at] ? 0 : 1;
    perTotal[at] = per;
  }
  for (let at = 0; at < hasOwn.length; at += 1) {
    if (hasOwn[at] === 1) continue;
    const build = usualBuildAt(depth.centre[at] as number);
    changed[at] = build === usual[at] ? 0 : 1;
    if (changed[at] === 0) continue;
    usual[at] = build;
    logA[at] = Math.log(build.a);
    exponent[at] = build.b;
  }
}

/** The usual build at a depth in columns, NaN where it is not known: a number that may be none as well would become an object. */
export const usualBuildAt = (perTotal: number): UsualBuild => (Number.isNaN(perTotal) ? usualBuild(undefined) : usualBuild(perTotal));

const isByStandard = ({ kind }: StockAnimal): boolean => kind.record.size?.weight?.lengthType === 'SL';

/** Whether weights of a kind follow from nothing but bands. */
export const isBuildFixed = ({ isFixed }: Columns, { record: { size } }: StockKind): boolean =>
  isFixed(size?.weight) && isFixed(size?.totalPerFork);
