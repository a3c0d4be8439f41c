import type { Basis } from '@commensal/schema';
import { likeness } from '../biology/likeness.js';
import { rockClaim } from '../biology/rock-claim.js';
import { weakest } from '../quantity/basis.js';
import { logDown, logUp, together } from '../quantity/log-errors.js';
import type { Stock, StockAnimal } from '../stock/stock.js';
import { lengthOn } from './gape/index.js';
import { INAPPLICABLE, PASSED, type Rule, type RuleDefault } from './rule.js';

/** One judgement: a claimant, and the claims that weigh on the rock it shares, at the horizon. */
export interface RockCrowdingMeasure {
  readonly animal: StockAnimal;
  /** Weighted claims on the rock from where this animal sits, in litres; its own included. */
  readonly claimedL: number;
  readonly ownL: number;
  /** Relative error of the claims, in logarithms. */
  readonly claimedError: number;
  readonly rockL: number | undefined;
  readonly rockError: number;
  /** The neighbours whose weighted claims count most, the heaviest first. */
  readonly rivals: readonly StockAnimal[];
  /** Fields without which the sum is too small. */
  readonly missing: readonly string[];
  readonly basis: Basis;
}

type Options = 'ownKind' | 'genus' | 'kin' | 'wayOfLiving' | 'errorShare';

const weight = (value: number, who: string): RuleDefault => ({ value, unit: '1', basis: 'choice', note: `How much of a claim counts against ${who}.` });

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
    ownKind: weight(1, 'its own kind'),
    genus: weight(0.8, 'others of its genus'),
    kin: weight(0.5, 'others of its kin group'),
    wayOfLiving: weight(0.3, 'others that live the same way'),
    errorShare: { value: 1.5, unit: '1', basis: 'choice', note: 'Claims over this multiple of the rock are an error: half of what is claimed again is missing.' },
  },

  measure(stock, options, each) {
    const staying = stock.animals.filter((animal) => animal.leaveDay > stock.horizonDay);
    const claims = staying.map((animal) => claimOf(animal, stock));
    const seen = new Set<string>();
    staying.forEach((animal, at) => {
      const own = claims[at] as Claim;
      // Companions of one species share one judgement, as they share one claim.
      if (own.litres === 0 || (sharesClaim(animal) && seen.has(animal.kind.id))) return;
      seen.add(animal.kind.id);
      each(crowdingOf(stock, animal, own, staying, claims, options));
    });
  },

  judge({ claimedL, claimedError, rockL, rockError, missing }, { errorShare }) {
    if (rockL === undefined) return { outcome: 'cantTell', level: 'warning', message: 'rock-crowding.rockUnknown' };
    const share = claimedL / rockL;
    const level = share > errorShare ? 'error' : 'warning';
    if (share > 1) return { outcome: 'failed', level, message: 'rock-crowding.tooLittle' };
    if (missing.length > 0) return { outcome: 'cantTell', level: 'error', message: 'rock-crowding.claimUnknown' };
    const worst = share * Math.exp(together(claimedError, rockError));
    if (worst > 1) return { outcome: 'cantTell', level: worst > errorShare ? 'error' : 'warning', message: 'rock-crowding.mayBeTooLittle' };
    return claimedL === 0 ? INAPPLICABLE : PASSED;
  },

  tell({ animal, claimedL, ownL, rockL, rivals, missing, basis }) {
    const litres = (value: number): { value: number; unit: string } => ({ value: Math.round(value * 10) / 10, unit: 'L' });
    return {
      subjects: [{ id: animal.id, role: 'claimant' }, ...rivals.map((rival) => ({ id: rival.id, role: 'rival' }))],
      data: {
        claimed: litres(claimedL),
        own: litres(ownL),
        ...(rockL === undefined ? {} : { rock: litres(rockL), missingRock: litres(Math.max(0, claimedL - rockL)) }),
        ...(missing.length > 0 ? { missing: { keys: [...missing] } } : {}),
      },
      when: null,
      basis,
    };
  },
};

interface Claim {
  /** Litres of one of the animals; undefined where its claim is not known. */
  readonly litres: number | undefined;
  readonly error: number;
  readonly basis: Basis;
}

/** A bonded pair, a harem or a group holds one territory together. */
const sharesClaim = (animal: StockAnimal): boolean => {
  const kind = animal.kind.record.conduct?.company?.kind;
  return kind === 'pair' || kind === 'harem' || kind === 'group';
};

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
  options: Readonly<Record<Options, number>>,
): RockCrowdingMeasure {
  const rock = stock.tank.rockL;
  const shared = sharesClaim(animal);
  let claimed = 0;
  let squares = 0;
  let basis: Basis = own.basis;
  const missing: string[] = own.litres === undefined ? ['conduct.rockClaim'] : [];
  const rivals: { animal: StockAnimal; litres: number }[] = [];
  const sharedCounted = new Set<string>();
  staying.forEach((other, at) => {
    const claim = claims[at] as Claim;
    const weightOfOther = likeness(animal.kind, other.kind, options);
    if (weightOfOther === 0) return;
    if (claim.litres === undefined) {
      if (other !== animal) missing.push('conduct.rockClaim');
      return;
    }
    const together = sharesClaim(other);
    if (together && sharedCounted.has(other.kind.id)) return;
    if (together) sharedCounted.add(other.kind.id);
    const litres = weightOfOther * claim.litres * (together ? 1 : other.count);
    claimed += litres;
    const error = litres * (Math.exp(claim.error) - 1);
    squares += error * error;
    if (litres > 0) basis = weakest(basis, claim.basis);
    const self = other === animal || (shared && other.kind.id === animal.kind.id);
    if (!self && litres > 0) rivals.push({ animal: other, litres });
  });
  rivals.sort((one, other) => other.litres - one.litres || (one.animal.id < other.animal.id ? -1 : 1));
  return {
    animal,
    claimedL: claimed,
    ownL: own.litres ?? Number.NaN,
    claimedError: claimed > 0 ? Math.log(1 + Math.sqrt(squares) / claimed) : 0,
    rockL: rock?.centre,
    rockError: rock === undefined ? 0 : logDown(rock),
    rivals: rivals.map((rival) => rival.animal),
    missing: [...new Set(missing)],
    basis: rock === undefined ? basis : weakest(basis, rock.basis),
  };
}
