import type { Basis } from '@commensal/schema';
import { LIKENESS_WEIGHTS, type LikenessWeights, likeness, mayLiveAlike } from '../biology/likeness.js';
import { rockClaim } from '../biology/rock-claim.js';
import { weakest } from '../quantity/basis.js';
import { logUp } from '../quantity/log-errors.js';
import type { Stock, StockAnimal, StockTank } from '../stock/stock.js';
import { sharesClaim } from './companions.js';
import { lengthOn } from './gape/index.js';

/** The rock left to an animal, and what it wants of it, in litres. */
export interface Refuge {
  /** Rock out of reach of attackers and less what others hold of it; NaN where the rock is not known. May be below zero. */
  readonly leftL: number;
  /** What the animal claims for itself. */
  readonly wantedL: number;
  /** Left less wanted at the centre, and at the point less favourable to the animal; NaN and -Infinity where not known. */
  readonly spareL: number;
  readonly spareAtWorstL: number;
  /** Fields without which it cannot be told. */
  readonly missing: readonly string[];
  readonly basis: Basis;
}

/** One that keeps another off the rock, as far as so many times what it claims. */
export interface Attacker {
  readonly animal: StockAnimal;
  readonly reach: number;
}

/**
 * What refuge an animal has on the rock on a day. Attackers keep it off all within their reach; what others hold counts by likeness, as
 * in `rock-crowding`.
 */
export function refugeOf(
  stock: Stock,
  animal: StockAnimal,
  attackers: readonly Attacker[],
  others: readonly StockAnimal[],
  day: number,
): Refuge {
  const { rockL } = stock.tank;
  const weights = weightsIn(stock);
  const own = claimOn(animal, day);
  let claimsKnown = own.litres !== undefined;
  let basis = weakest(rockL?.basis ?? 'measured', own.basis);
  let held = 0;
  let squares = rockL === undefined ? 0 : square(rockL.centre - rockL.low);
  // What those hold that may live as the animal does, and so may be in its way.
  let maybeHeld = 0;
  for (let at = 0; at < attackers.length + others.length; at += 1) {
    const attacker = attackers[at];
    const one = attacker?.animal ?? (others[at - attackers.length] as StockAnimal);
    const alike = attacker?.reach ?? likeness(animal.kind, one.kind, weights);
    const inDoubt = attacker === undefined && mayLiveAlike(animal.kind, one.kind, alike);
    const share = inDoubt ? weights.wayOfLiving : alike;
    if (share === 0) continue;
    const { litres, error, basis: ofClaim } = claimOn(one, day);
    if (litres === undefined) claimsKnown = false;
    else if (litres > 0) {
      basis = weakest(basis, ofClaim);
      if (inDoubt) maybeHeld += share * litres;
      else held += share * litres;
      squares += square(share * litres * (Math.exp(error) - 1));
    }
  }
  const wantedL = own.litres ?? 0;
  squares += square(wantedL * (Math.exp(own.error) - 1));
  const leftL = rockL === undefined ? Number.NaN : rockL.centre - held;
  const spareL = leftL - wantedL;
  const missing = rockL === undefined ? (claimsKnown ? ROCK : ROCK_AND_CLAIM) : claimsKnown ? NOTHING : CLAIM;
  const spareAtWorstL = missing.length > 0 ? Number.NEGATIVE_INFINITY : spareL - maybeHeld - Math.sqrt(squares);
  return { leftL, wantedL, spareL, spareAtWorstL, missing, basis };
}

const NOTHING: readonly string[] = [];
const ROCK: readonly string[] = ['tank.rock'];
const CLAIM: readonly string[] = ['conduct.rockClaim'];
const ROCK_AND_CLAIM: readonly string[] = [...ROCK, ...CLAIM];

const square = (value: number): number => value * value;

/** The weights of `rock-crowding`, as the settings have them. */
export function weightsIn(stock: Stock): LikenessWeights {
  const told = stock.settings.thresholds['rock-crowding'];
  return told === undefined ? LIKENESS_WEIGHTS : { ...LIKENESS_WEIGHTS, ...told };
}

interface Claim {
  /** Of the whole line; undefined where it is not known. */
  readonly litres: number | undefined;
  readonly error: number;
  readonly basis: Basis;
}

/** What a line claims on a day. Lengths beyond adult size claim no more; where the length is not known the full claim stands. */
function claimOn(animal: StockAnimal, day: number): Claim {
  const { rockClaimL, adultCm } = animal.kind;
  if (rockClaimL === undefined) return { litres: undefined, error: 0, basis: 'recalled' };
  if (rockClaimL.centre === 0) return { litres: 0, error: 0, basis: rockClaimL.basis };
  const adult = adultCm?.centre ?? Number.NaN;
  const length = Math.min(adult, lengthOn(animal, day));
  const one = Number.isNaN(length) ? rockClaimL.centre : rockClaim(rockClaimL.centre, length, adult);
  return { litres: one * (sharesClaim(animal.kind) ? 1 : animal.count), error: logUp(rockClaimL), basis: rockClaimL.basis };
}

type Shelter = keyof StockTank['shelters'];

const SHELTERS: Readonly<Record<string, Shelter>> = {
  'holes-in-rock': 'holes',
  'caves-and-ledges': 'caves',
  burrows: 'burrows',
  'among-branches': 'branches',
};

/** The shelter of an animal's way of living, and how many of it are free of others that live so; undefined where none counts. */
export function freeShelter(
  stock: Stock,
  animal: StockAnimal,
  others: readonly StockAnimal[],
): { shelter: Shelter; there: number; free: number } | undefined {
  const way = animal.kind.wayOfLiving;
  const shelter = way === undefined ? undefined : SHELTERS[way];
  const there = shelter === undefined ? undefined : stock.tank.shelters[shelter];
  if (shelter === undefined || there === undefined) return undefined;
  return { shelter, there, free: there - takenBy(others, animal, way) };
}

function takenBy(others: readonly StockAnimal[], animal: StockAnimal, way: string | undefined): number {
  let taken = 0;
  for (const other of others) if (other !== animal && other.kind.wayOfLiving === way) taken += other.count;
  return taken;
}

/** Whether fewer shelters than so many may be free for an animal, as it is not known how it or some of the others live. */
export function mayLackShelter(stock: Stock, animal: StockAnimal, others: readonly StockAnimal[], wants: number): boolean {
  const isUnknown = ({ kind }: StockAnimal): boolean => kind.wayOfLiving === undefined;
  if (!isUnknown(animal) && !others.some(isUnknown)) return false;
  return Object.entries(SHELTERS).some(([way, shelter]) => {
    const there = stock.tank.shelters[shelter];
    const isItsOwn = (animal.kind.wayOfLiving ?? way) === way;
    return isItsOwn && there !== undefined && there - takenBy(others, animal, way) - takenBy(others, animal, undefined) < wants;
  });
}
