import type { Basis, Level } from '@commensal/schema';
import { LIKENESS_WEIGHTS, likeness, mayLiveAlike } from '../biology/likeness.js';
import { rockClaim } from '../biology/rock-claim.js';
import { weakest } from '../quantity/basis.js';
import { logDown, logUp, together } from '../quantity/log-errors.js';
import type { Stock, StockAnimal, StockKind } from '../stock/stock.js';
import { sharesClaim } from './companions.js';
import { lengthOn } from './gape/index.js';
import { isOver } from './rounding.js';
import { INAPPLICABLE, optionsOf, PASSED, type Rule, type RuleDefault } from './rule.js';

/** One judgement: a claimant, and the claims that weigh on the rock it shares, at the horizon. */
export interface RockCrowdingMeasure {
  readonly animal: StockAnimal;
  /** Weighted claims on the rock from where this animal sits, in litres; its own included. */
  readonly claimedL: number;
  readonly ownL: number;
  /** The same with the claims of animals that may live the same way: one of the two ways is not on record. */
  readonly mostL: number;
  /** Relative error of `mostL`, in logarithms. */
  readonly claimedError: number;
  readonly rockL: number | undefined;
  readonly rockError: number;
  /** The neighbours whose weighted claims count most, the heaviest first. */
  readonly rivals: readonly StockAnimal[];
  /** Those that may live the same way. */
  readonly maybeRivals: readonly StockAnimal[];
  /** Fields without which the sum is too small. */
  readonly missing: readonly string[];
  readonly basis: Basis;
}

/** Its thresholds. */
export type RockCrowdingOptions = Readonly<Record<Options, number>>;

type Options = 'ownKind' | 'genus' | 'kin' | 'wayOfLiving' | 'errorShare';

const weight = (value: number, who: string): RuleDefault => ({
  value,
  unit: '1',
  basis: 'choice',
  note: `How much of a claim counts against ${who}.`,
});

/** Is there rock enough for all that claim it? */
export const rockCrowding: Rule<RockCrowdingMeasure, Options> = {
  id: 'rock-crowding',
  question: 'Is there rock enough for the territories of all that claim it?',
  scope: 'tank',
  planning: 'capacity',
  monotone: { water: 'neither', rock: 'better', fewerAnimals: 'better', delay: 'better' },
  needs: ['conduct.rockClaim', 'conduct.wayOfLiving', 'kinGroup', 'size.captiveAdult', 'tank.rock'],
  sources: ['bucher-1998', 'crane-burke-2007'],
  defaults: {
    ownKind: weight(LIKENESS_WEIGHTS.ownKind, 'its own kind'),
    genus: weight(LIKENESS_WEIGHTS.genus, 'others of its genus'),
    kin: weight(LIKENESS_WEIGHTS.kin, 'others of its kin group'),
    wayOfLiving: weight(LIKENESS_WEIGHTS.wayOfLiving, 'others that live the same way'),
    errorShare: {
      value: 1.5,
      unit: '1',
      basis: 'choice',
      note: 'Claims over this multiple of the rock are an error: half of what is claimed again is missing.',
    },
  },

  measure(stock, options, each) {
    const staying = stock.animals.filter((animal) => weighsOn(stock, animal));
    const claims = staying.map((animal) => claimOf(animal, stock));
    const held = holders(staying, claims);
    staying.forEach((animal, at) => {
      const own = claims[at] as Claim;
      if (own.litres !== 0 && held[at] === true) each(crowdingOf(stock, animal, own, staying, claims, held, options));
    });
  },

  judge({ claimedL, mostL, claimedError, rockL, rockError, missing }, { errorShare }) {
    if (rockL === undefined) return { outcome: 'cantTell', level: 'warning', message: 'rock-crowding.rockUnknown' };
    const share = claimedL / rockL;
    const level = (claims: number): Level => (isOver(claims, errorShare) ? 'error' : 'warning');
    if (isOver(share, 1)) return { outcome: 'failed', level: level(share), message: 'rock-crowding.tooLittle' };
    if (missing.length > 0) return { outcome: 'cantTell', level: 'error', message: 'rock-crowding.claimUnknown' };
    const worst = (mostL / rockL) * Math.exp(together(claimedError, rockError));
    if (isOver(worst, 1)) return { outcome: 'cantTell', level: level(worst), message: 'rock-crowding.mayBeTooLittle' };
    return claimedL === 0 ? INAPPLICABLE : PASSED;
  },

  tell({ animal, claimedL, ownL, claimedError, rockL, rockError, rivals, maybeRivals, missing, basis }, { outcome, message }) {
    const named = outcome === 'cantTell' ? [...rivals, ...maybeRivals] : rivals;
    const settle = maybeRivals.length > 0 ? 'conduct.wayOfLiving' : claimedError >= rockError ? 'conduct.rockClaim' : 'tank.rock';
    const lacking = rockL === undefined ? [...missing, 'tank.rock'] : missing;
    const litres = (value: number): { value: number; unit: string } => ({ value: Math.round(value * 10) / 10, unit: 'L' });
    // What is missing must not read as nothing; what the last digit is over a tenth is rounding.
    const upwards = (value: number): { value: number; unit: string } => ({
      value: Math.max(0, Math.ceil(value * 10 - 1e-6)) / 10,
      unit: 'L',
    });
    return {
      subjects: [{ id: animal.id, role: 'claimant' }, ...named.map((rival) => ({ id: rival.id, role: 'rival' }))],
      data: {
        claimed: litres(claimedL),
        ...(Number.isNaN(ownL) ? {} : { own: litres(ownL) }),
        ...(rockL === undefined ? {} : { rock: litres(rockL), missingRock: upwards(Math.max(0, claimedL - rockL)) }),
        ...(lacking.length > 0 ? { missing: { keys: [...lacking] } } : {}),
        ...(message === 'rock-crowding.mayBeTooLittle' ? { settle: { keys: [settle] } } : {}),
      },
      when: null,
      basis,
    };
  },
};

/** Litres of rock that are missing where claims weigh most; 0 where there is enough, undefined where the rock is not told. */
export function missingRock(stock: Stock): number | undefined {
  const { rockL } = stock.tank;
  if (rockL === undefined) return undefined;
  const options = optionsOf(rockCrowding, stock);
  const staying = stock.animals.filter((animal) => weighsOn(stock, animal));
  const claims = staying.map((animal) => claimOf(animal, stock));
  const held = holders(staying, claims);
  const holding: Holding[] = [];
  staying.forEach(({ kind, count }, at) => {
    const { litres } = claims[at] as Claim;
    if (litres !== 0 && held[at] === true) holding.push({ kind, litres: litres ?? 0, count: sharesClaim(kind) ? 1 : count });
  });
  let missing = 0;
  const weighed: StockKind[] = [];
  for (const { kind } of holding) {
    // To all of one kind claims weigh the same.
    if (weighed.includes(kind)) continue;
    weighed.push(kind);
    missing = Math.max(missing, claimedFrom(kind, holding, options) - rockL.centre);
  }
  return missing;
}

interface Holding {
  readonly kind: StockKind;
  /** Litres of one of the animals; 0 where its claim is not known. */
  readonly litres: number;
  readonly count: number;
}

/** `claimedL` of the animals of a kind, summed in the same order. */
function claimedFrom(kind: StockKind, holding: readonly Holding[], options: RockCrowdingOptions): number {
  const counted: number[] = [];
  for (const one of holding) {
    const litres = likeness(kind, one.kind, options) * one.litres * one.count;
    if (litres > 0) counted.push(litres);
  }
  counted.sort((one, other) => one - other);
  let claimed = 0;
  for (const litres of counted) claimed += litres;
  return claimed;
}

interface Claim {
  /** Litres of one of the animals; undefined where its claim is not known. */
  readonly litres: number | undefined;
  readonly error: number;
  readonly basis: Basis;
}

/** Claims are weighed at the horizon: whether an animal is there then. */
export const weighsOn = ({ horizonDay }: Stock, { leaveDay }: StockAnimal): boolean => leaveDay > horizonDay;

/**
 * Who holds a claim: every animal, save that companions of one species hold the largest of theirs together, so that neither
 * the order of the document nor a smaller companion changes it.
 */
function holders(staying: readonly StockAnimal[], claims: readonly Claim[]): boolean[] {
  const largest = new Map<string, number>();
  staying.forEach((animal, at) => {
    const known = largest.get(animal.kind.id);
    if (known === undefined || (claims[at]?.litres ?? 0) > (claims[known]?.litres ?? 0)) largest.set(animal.kind.id, at);
  });
  return staying.map((animal, at) => !sharesClaim(animal.kind) || largest.get(animal.kind.id) === at);
}

/** What an animal claims at the horizon, when it has grown most. Lengths beyond adult size claim no more. */
function claimOf(animal: StockAnimal, stock: Stock): Claim {
  const { rockClaimL, adultCm } = animal.kind;
  if (rockClaimL === undefined) return { litres: undefined, error: 0, basis: 'recalled' };
  if (rockClaimL.centre === 0) return { litres: 0, error: 0, basis: rockClaimL.basis };
  const adult = adultCm?.centre;
  const length = adult === undefined ? Number.NaN : Math.min(adult, lengthOn(animal, stock.horizonDay));
  // Without a length the full claim stands: a gap must not make room.
  const litres = adult === undefined || Number.isNaN(length) ? rockClaimL.centre : rockClaim(rockClaimL.centre, length, adult);
  return { litres, error: logUp(rockClaimL), basis: weakest(rockClaimL.basis, animal.lengthCm?.basis ?? 'measured') };
}

function crowdingOf(
  stock: Stock,
  animal: StockAnimal,
  own: Claim,
  staying: readonly StockAnimal[],
  claims: readonly Claim[],
  held: readonly boolean[],
  options: RockCrowdingOptions,
): RockCrowdingMeasure {
  const rock = stock.tank.rockL;
  const counted: { litres: number; error: number; certain: boolean }[] = [];
  let basis: Basis = own.basis;
  const missing = new Set<string>(own.litres === undefined ? ['conduct.rockClaim'] : []);
  const rivals: { animal: StockAnimal; litres: number }[] = [];
  const maybeRivals: StockAnimal[] = [];
  staying.forEach((other, at) => {
    const claim = claims[at] as Claim;
    const alike = likeness(animal.kind, other.kind, options);
    const inDoubt = mayLiveAlike(animal.kind, other.kind, alike);
    const weightOfOther = inDoubt ? options.wayOfLiving : alike;
    if (weightOfOther === 0 || held[at] !== true) return;
    if (claim.litres === undefined) {
      missing.add('conduct.rockClaim');
      return;
    }
    const litres = weightOfOther * claim.litres * (sharesClaim(other.kind) ? 1 : other.count);
    if (litres === 0) return;
    counted.push({ litres, error: litres * (Math.exp(claim.error) - 1), certain: !inDoubt });
    if (inDoubt) {
      maybeRivals.push(other);
      return;
    }
    basis = weakest(basis, claim.basis);
    if (other !== animal) rivals.push({ animal: other, litres });
  });
  // Summed by size, so that the order of the document does not show in the last digit.
  counted.sort((one, other) => one.litres - other.litres || one.error - other.error);
  const sum = (part: (claim: (typeof counted)[number]) => number): number => counted.reduce((total, claim) => total + part(claim), 0);
  const most = sum(({ litres }) => litres);
  rivals.sort((one, other) => other.litres - one.litres || (one.animal.id < other.animal.id ? -1 : 1));
  return {
    animal,
    claimedL: sum(({ litres, certain }) => (certain ? litres : 0)),
    ownL: own.litres ?? Number.NaN,
    mostL: most,
    claimedError: most > 0 ? Math.log(1 + Math.sqrt(sum(({ error }) => error * error)) / most) : 0,
    rockL: rock?.centre,
    rockError: rock === undefined ? 0 : logDown(rock),
    rivals: rivals.map((rival) => rival.animal),
    maybeRivals,
    missing: [...missing],
    basis: rock === undefined ? basis : weakest(basis, rock.basis),
  };
}
