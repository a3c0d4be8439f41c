import { lengthShortOf } from '../../biology/length-after.js';
import { rockClaim } from '../../biology/rock-claim.js';
import { type UsualBuild, usualBuild } from '../../biology/usual-weight.js';
import { logWeightEquivalentLength } from '../../biology/weight-equivalent-length.js';
import { quickDecay } from '../../quick/decay.js';
import { quickLog } from '../../quick/log.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import { ownBuildOf } from '../../rules/strength.js';
import type { StockAnimal, StockKind } from '../../stock/stock.js';
import type { BandColumns, Columns } from './columns.js';

/**
 * Animals on days, each pair of them a place with a number, and what they are there: worked out once a scenario for all rules, in loops over arrays, which is many times
 * faster than one by one as they are asked for. Places at the start of growth and from the horizon on are worked out in each scenario: on all days between, lengths, strengths and
 * claims lie between. Places on other days are worked out together, once some rule needs them.
 */
export interface Places {
  readonly columns: Columns;
  /** The place of an animal on a day; asked for before scenarios run. */
  readonly placeOf: (animal: number, day: number) => number;
  /** The places of an animal as it was measured, and at the horizon or on a later day that is looked at. */
  readonly startOf: (animal: number) => number;
  readonly endOf: (animal: number, day: number) => number;
  /** Total length in cm, natural logarithm of the weight-equivalent length, claim of one animal in litres of rock, and the square of how far that may be out. */
  lengths: Float64Array;
  logs: Float64Array;
  claims: Float64Array;
  squares: Float64Array;
  animalAt: Int32Array;
  yearsAt: Float64Array;
  /** Places at the start, those from the horizon on, and the others. */
  starts: Int32Array;
  ends: Int32Array;
  days: Int32Array;
  /** Whether any claim varies, or the adult length that it belongs to. */
  readonly claimsVary: boolean;
  /** The scenario for which the others were worked out. */
  daysIn: number;
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

export function placesOn(columns: Columns): Places {
  const { stock, ofAnimals } = columns;
  const placed: { readonly animal: number; readonly day: number }[] = [];
  const animalOf = (at: number): StockAnimal => stock.animals[at] as StockAnimal;
  const placeOf = (animal: number, day: number): number => {
    const there = placed.findIndex((place) => place.animal === animal && place.day === day);
    if (there >= 0) return there;
    placed.push({ animal, day });
    layOut();
    return placed.length - 1;
  };
  const layOut = (): void => {
    const room = (): Float64Array => new Float64Array(placed.length);
    [places.lengths, places.logs, places.claims, places.squares] = [room(), room(), room(), room()];
    places.animalAt = Int32Array.from(placed, ({ animal }) => animal);
    places.yearsAt = Float64Array.from(placed, ({ animal, day }) => yearsSince(animalOf(animal), day));
    const sorts = placed.map(({ animal, day }) => (day === animalOf(animal).lengthDay ? 'start' : day >= stock.horizonDay ? 'end' : 'day'));
    const ofSort = (wanted: (typeof sorts)[number]): Int32Array =>
      Int32Array.from(sorts.flatMap((sort, place) => (sort === wanted ? [place] : [])));
    [places.starts, places.ends, places.days] = [ofSort('start'), ofSort('end'), ofSort('day')];
  };
  const own = stock.animals.map(({ kind }) => ownBuildOf(kind));
  const places: Places = {
    columns,
    placeOf,
    startOf: (animal) => placeOf(animal, animalOf(animal).lengthDay),
    endOf: (animal, day) => placeOf(animal, Math.max(stock.horizonDay, day)),
    lengths: new Float64Array(0),
    logs: new Float64Array(0),
    claims: new Float64Array(0),
    squares: new Float64Array(0),
    animalAt: new Int32Array(0),
    yearsAt: new Float64Array(0),
    starts: new Int32Array(0),
    ends: new Int32Array(0),
    days: new Int32Array(0),
    claimsVary: !stock.animals.every(({ kind }) => columns.isFixed(kind.rockClaimL) && columns.isFixed(kind.adultCm)),
    daysIn: 0,
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

/** Works out the places at the start and from the horizon on, for the scenario that the columns hold. */
export function workOutEnds(places: Places): void {
  takeBuilds(places);
  const { starts, lengths, animalAt, bands, builds } = places;
  const { changed } = builds;
  // Lengths told do not vary in most studies: then nothing is worked out anew.
  let isAnew = places.claimsVary;
  for (let index = 0; index < starts.length && !isAnew; index += 1) {
    const place = starts[index] as number;
    const at = animalAt[place] as number;
    isAnew = changed[at] === 1 || lengths[place] !== bands.length.centre[at];
  }
  if (isAnew) workOut(places, starts);
  workOut(places, places.ends);
}

/** Works out the other places, unless that is done. */
export function needDays(places: Places): void {
  if (places.daysIn === places.columns.scenario) return;
  places.daysIn = places.columns.scenario;
  workOut(places, places.days);
}

/** One figure after the other: engines keep up best with short loops. */
function workOut(places: Places, list: Int32Array): void {
  workOutLengths(places, list);
  workOutLogs(places, list);
  workOutClaims(places, list);
}

function workOutLengths({ lengths, animalAt, yearsAt, bands }: Places, list: Int32Array): void {
  const starts = bands.length.centre;
  const asymptotes = bands.asymptote.centre;
  const rates = bands.rate.centre;
  for (let index = 0; index < list.length; index += 1) {
    const place = list[index] as number;
    const at = animalAt[place] as number;
    const start = starts[at] as number;
    const years = yearsAt[place] as number;
    if (years === 0) lengths[place] = start;
    else {
      const grown = lengthShortOf(start, asymptotes[at] as number, quickDecay((rates[at] as number) * years));
      // Without a curve an animal stays as it is.
      lengths[place] = Number.isNaN(grown) ? start : grown;
    }
  }
}

function workOutLogs({ lengths, logs, animalAt, builds: { logA, exponent, perTotal } }: Places, list: Int32Array): void {
  for (let index = 0; index < list.length; index += 1) {
    const place = list[index] as number;
    const at = animalAt[place] as number;
    const logLength = quickLog((lengths[place] as number) * (perTotal[at] as number));
    logs[place] = logWeightEquivalentLength((logA[at] as number) + (exponent[at] as number) * logLength);
  }
}

function workOutClaims({ lengths, claims, squares, animalAt, bands }: Places, list: Int32Array): void {
  const adults = bands.adult.centre;
  const fulls = bands.claim.centre;
  const fullsAtMost = bands.claim.high;
  for (let index = 0; index < list.length; index += 1) {
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
    const perLength = depth.centre[at] as number;
    const build = usualBuild(Number.isNaN(perLength) ? undefined : perLength);
    changed[at] = build === usual[at] ? 0 : 1;
    if (changed[at] === 0) continue;
    usual[at] = build;
    logA[at] = Math.log(build.a);
    exponent[at] = build.b;
  }
}

const isByStandard = ({ kind }: StockAnimal): boolean => kind.record.size?.weight?.lengthType === 'SL';

/** Whether weights of a kind follow from nothing but bands. */
export const isBuildFixed = ({ isFixed }: Columns, { record: { size } }: StockKind): boolean =>
  isFixed(size?.weight) && isFixed(size?.totalPerFork);
