import { likeness, mayLiveAlike } from '../../biology/likeness.js';
import type { Band } from '../../quantity/band.js';
import { sharesClaim } from '../../rules/companions.js';
import { weightsIn } from '../../rules/refuge.js';
import type { StockAnimal } from '../../stock/stock.js';
import type { BandColumns, Columns } from './columns.js';
import { CLOSE } from './kernel.js';
import type { Places } from './places.js';

/** What an animal wants of the rock on a day, and what others that may be in its way hold. */
export interface Ground {
  /** A number of its own. */
  readonly at: number;
  /** Place of the animal, and how many of its line claim; -1 where its claim is not known. */
  readonly own: number;
  readonly ownCount: number;
  /** Places of the others whose claims are known and count, and how much of them does. */
  readonly others: Int32Array;
  readonly shares: Float64Array;
  /** Whether they may only live as the animal does. */
  readonly inDoubt: Uint8Array;
  /** Rock and all claims are known. */
  readonly isKnown: boolean;
}

/** One of the others that keeps the animal off all within its reach. */
export interface Attacker {
  /** Below 0 where its claim is not known. */
  readonly place: number;
  /** How many of its line claim. */
  readonly count: number;
  /** What the ground counts of it already, for certain or perhaps. */
  readonly share: number;
  readonly maybeShare: number;
}

/** Refuges on the rock in columns, as `refugeOf` has them, and the one that is looked at. */
export interface Refuges {
  readonly columns: Columns;
  readonly places: Places;
  readonly rock: BandColumns;
  /** The ground of an animal among these others, each of them on a day. */
  readonly groundOf: (animal: number, dayOf: (animal: number) => number, others: readonly number[]) => Ground;
  /** Litres of rock beyond which an animal has room though all are full grown, at whatever errors, with some of the others attacking so many times as far as they claim; Infinity where something is not known, or claims vary. */
  readonly rockFor: (animal: number, others: readonly number[], attackers: readonly number[], reach: number) => number;
  /** One of the others as attacker. */
  readonly attackerOn: (animal: number, day: number, attacker: number, others: readonly number[]) => Attacker;
  /** What was found of each ground, four numbers each: what is left, what may be held besides, squares of errors, and the scenario in which that was found. */
  found: Float64Array;
  /** The first three of the ground that is looked at, attackers taken in. */
  readonly here: Float64Array;
  /** Rock and claims are known there. */
  isKnown: boolean;
}

const square = (value: number): number => value * value;

export function refugesOn(places: Places): Refuges {
  const { columns, placeOf } = places;
  const { stock } = columns;
  const weights = weightsIn(stock);
  const animalAt = (at: number): StockAnimal => stock.animals[at] as StockAnimal;
  const countOf = (at: number): number => (sharesClaim(animalAt(at).kind) ? 1 : animalAt(at).count);
  const hasClaim = (at: number): boolean => animalAt(at).kind.rockClaimL !== undefined;
  const shareOf = (animal: number, other: number): { share: number; inDoubt: boolean } => {
    const [one, two] = [animalAt(animal).kind, animalAt(other).kind];
    const alike = likeness(one, two, weights);
    const inDoubt = mayLiveAlike(one, two, alike);
    return { share: inDoubt ? weights.wayOfLiving : alike, inDoubt };
  };
  const grounds: Ground[] = [];
  const known = new Map<string, Ground>();
  const groundOf = (animal: number, dayOf: (animal: number) => number, others: readonly number[]): Ground => {
    const key = [animal, ...others].map((one) => placeOf(one, dayOf(one))).join();
    const there = known.get(key);
    if (there !== undefined) return there;
    const near = others.map((other) => ({ other, ...shareOf(animal, other) })).filter(({ share }) => share !== 0);
    const counted = near.filter(({ other }) => hasClaim(other));
    const ground: Ground = {
      at: grounds.length,
      own: hasClaim(animal) ? placeOf(animal, dayOf(animal)) : -1,
      ownCount: countOf(animal),
      others: Int32Array.from(counted, ({ other }) => placeOf(other, dayOf(other))),
      shares: Float64Array.from(counted, ({ other, share }) => share * countOf(other)),
      inDoubt: Uint8Array.from(counted, ({ inDoubt }) => (inDoubt ? 1 : 0)),
      isKnown: stock.tank.rockL !== undefined && hasClaim(animal) && counted.length === near.length,
    };
    grounds.push(ground);
    refuges.found = new Float64Array(4 * grounds.length);
    known.set(key, ground);
    return ground;
  };
  const attackerOn = (animal: number, day: number, attacker: number, others: readonly number[]): Attacker => {
    if (!hasClaim(attacker)) return NOBODY;
    const { share, inDoubt } = others.includes(attacker) ? shareOf(animal, attacker) : { share: 0, inDoubt: false };
    const count = countOf(attacker);
    return {
      place: placeOf(attacker, day),
      count,
      share: inDoubt ? 0 : share * count,
      maybeShare: inDoubt ? share * count : 0,
    };
  };

  const rockFor = (animal: number, others: readonly number[], attackers: readonly number[], reach: number): number => {
    const all = [animal, ...new Set([...others, ...attackers])].map((at) => {
      const isAttacker = at !== animal && attackers.includes(at);
      const times = countOf(at) * (isAttacker ? reach : at === animal ? 1 : shareOf(animal, at).share);
      return { kind: animalAt(at).kind, times };
    });
    if (attackers.includes(animal)) all.push({ kind: animalAt(animal).kind, times: countOf(animal) * reach });
    const counted = all.filter(({ times }) => times !== 0);
    if (stock.tank.rockL === undefined || !counted.every(({ kind }) => kind.rockClaimL !== undefined && columns.isFixed(kind.rockClaimL)))
      return Number.POSITIVE_INFINITY;
    let litres = 0;
    let errors = 0;
    for (const { kind, times } of counted) {
      const { centre, high } = kind.rockClaimL as Band;
      litres += times * centre;
      errors += square(times * (high - centre));
    }
    return litres + Math.sqrt(errors) + CLOSE;
  };
  const refuges: Refuges = {
    columns,
    places,
    rock: columns.ofTank('rock'),
    groundOf,
    rockFor,
    attackerOn,
    found: new Float64Array(0),
    here: new Float64Array(3),
    isKnown: false,
  };
  return refuges;
}

/** The rock that is there for sure: nothing that is off takes more. */
export const rockAtLeast = ({ rock }: Refuges): number => rock.low[0] as number;

/** Goes to a ground: no attackers yet. */
export function goTo(refuges: Refuges, ground: Ground): void {
  const { found, here, columns } = refuges;
  const at = 4 * ground.at;
  if (found[at + 3] !== columns.scenario) count(refuges, ground);
  here[0] = found[at] as number;
  here[1] = found[at + 1] as number;
  here[2] = found[at + 2] as number;
  refuges.isKnown = ground.isKnown;
}

function count(refuges: Refuges, { at, own, ownCount, others, shares, inDoubt }: Ground): void {
  const { found, rock, columns } = refuges;
  const { claims, squares } = refuges.places;
  let free = rock.centre[0] as number;
  let out = square(free - (rock.low[0] as number));
  let maybe = 0;
  if (own >= 0) {
    free -= ownCount * (claims[own] as number);
    out += square(ownCount) * (squares[own] as number);
  }
  for (let index = 0; index < others.length; index += 1) {
    const place = others[index] as number;
    const share = shares[index] as number;
    out += share * share * (squares[place] as number);
    if (inDoubt[index] === 1) maybe += share * (claims[place] as number);
    else free -= share * (claims[place] as number);
  }
  found[4 * at] = free;
  found[4 * at + 1] = maybe;
  found[4 * at + 2] = out;
  found[4 * at + 3] = columns.scenario;
}

/** How many times an attacker counts beyond what the ground has of it for certain, and the square of its error. */
const timesOf = ({ count: lines, share }: Attacker, reach: number): number => reach * lines - share;
const squareTimesOf = ({ count: lines, share, maybeShare }: Attacker, reach: number): number =>
  square(reach * lines) - square(share + maybeShare);

/** Lets another attack whoever is on the ground that is looked at, reaching so many times as far as it claims. */
export function attack(refuges: Refuges, attacker: Attacker, reach: number): void {
  const { place, maybeShare } = attacker;
  if (place < 0) {
    refuges.isKnown = false;
    return;
  }
  const { here } = refuges;
  const { claims, squares } = refuges.places;
  const litres = claims[place] as number;
  here[0] = (here[0] as number) - timesOf(attacker, reach) * litres;
  here[1] = (here[1] as number) - maybeShare * litres;
  here[2] = (here[2] as number) + squareTimesOf(attacker, reach) * (squares[place] as number);
}

export const ROOM = 1;
export const TOO_CLOSE = 0;
export const NO_ROOM = -1;

/** What is left there to the animal over what it wants, as one of these three: a number of litres that is handed over would become an object. */
const roomFrom = (spareL: number): number => (spareL < -CLOSE ? NO_ROOM : spareL < CLOSE ? TOO_CLOSE : ROOM);

/** Whether there is room; ROOM where the rock is not known, as only doubts can come of that. */
export const roomIn = ({ here }: Refuges): number => roomFrom(here[0] as number);

/** The same at the point less favourable to the animal; NO_ROOM where something is not known. */
export const roomAtWorstIn = ({ here, isKnown }: Refuges): number =>
  isKnown ? roomFrom((here[0] as number) - (here[1] as number) - Math.sqrt(Math.max(0, here[2] as number))) : NO_ROOM;

/** An animal on its ground, with one attacker. */
export interface Stand {
  readonly ground: Ground;
  readonly attacker: Attacker;
  readonly reach: number;
}

/** Some attackers, one by one, each reaching so many times as far as it claims. */
export interface Attackers {
  /** Below 0 where its claim is not known. */
  readonly place: Int32Array;
  /** How many times it counts beyond what the ground has of it: for certain, perhaps, and the square of its error. */
  readonly times: Float64Array;
  readonly maybe: Float64Array;
  readonly squareTimes: Float64Array;
}

export const attackersOf = (attackers: readonly Attacker[], reach: (index: number) => number): Attackers => ({
  place: Int32Array.from(attackers, ({ place }) => place),
  times: Float64Array.from(attackers, (one, index) => timesOf(one, reach(index))),
  maybe: Float64Array.from(attackers, ({ maybeShare }) => maybeShare),
  squareTimes: Float64Array.from(attackers, (one, index) => squareTimesOf(one, reach(index))),
});

/** Goes to a ground on which those attack that are marked, from 1 up to a mark. */
export function goToAttacked(
  refuges: Refuges,
  ground: Ground,
  { place: places, times, maybe, squareTimes }: Attackers,
  marks: Int8Array,
  upTo: number,
): void {
  const { here } = refuges;
  const { claims, squares } = refuges.places;
  goTo(refuges, ground);
  let left = here[0] as number;
  let held = here[1] as number;
  let out = here[2] as number;
  for (let index = 0; index < marks.length; index += 1) {
    const mark = marks[index] as number;
    if (mark === 0 || mark > upTo) continue;
    const place = places[index] as number;
    if (place < 0) {
      refuges.isKnown = false;
      continue;
    }
    const litres = claims[place] as number;
    left -= (times[index] as number) * litres;
    held -= (maybe[index] as number) * litres;
    out += (squareTimes[index] as number) * (squares[place] as number);
  }
  here[0] = left;
  here[1] = held;
  here[2] = out;
}

/** Some stands, stand by stand: mostly there is room at the horizon, when all claim most. */
export interface Rooms {
  readonly grounds: readonly Ground[];
  /** Where what is found of the ground is noted; -1 where something is not known, or room settles nothing. */
  readonly foundAt: Int32Array;
  readonly attackers: Attackers;
}

const NOBODY: Attacker = { place: -1, count: 0, share: 0, maybeShare: 0 };

/** Undefined where room settles nothing. */
export const roomsOf = (stands: readonly (Stand | undefined)[]): Rooms => ({
  grounds: stands.map((stand) => stand?.ground as Ground),
  foundAt: Int32Array.from(stands, (stand) => (stand?.ground.isKnown === true && stand.attacker.place >= 0 ? 4 * stand.ground.at : -1)),
  attackers: attackersOf(
    stands.map((stand) => stand?.attacker ?? NOBODY),
    (index) => stands[index]?.reach ?? 1,
  ),
});

/** Whether the animal of one of them clearly has all that it wants, at the point less favourable to it too. */
export function isRoomy(refuges: Refuges, { grounds, foundAt, attackers }: Rooms, index: number): boolean {
  const { place: attacker, times, maybe, squareTimes } = attackers;
  const { found, columns } = refuges;
  const { claims, squares } = refuges.places;
  const at = foundAt[index] as number;
  if (at < 0) return false;
  if (found[at + 3] !== columns.scenario) count(refuges, grounds[index] as Ground);
  const place = attacker[index] as number;
  const litres = claims[place] as number;
  const left = (found[at] as number) - (times[index] as number) * litres;
  const spare = left - ((found[at + 1] as number) - (maybe[index] as number) * litres) - CLOSE;
  return spare > 0 && spare * spare > (found[at + 2] as number) + (squareTimes[index] as number) * (squares[place] as number);
}
