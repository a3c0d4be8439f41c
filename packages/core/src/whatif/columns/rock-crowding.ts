import type { RockCrowdingOptions } from '../../rules/rock-crowding.js';
import { type Claimants, claimantsIn } from './claimants.js';
import type { BandColumns } from './columns.js';
import { CLOSE, INAPPLICABLE_RANK, type Kernel, LEFT, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import { needEnds, type Places } from './places.js';

const FAILED_ERROR = rankOfVerdict({ outcome: 'failed', level: 'error' });
const FAILED_WARNING = rankOfVerdict({ outcome: 'failed', level: 'warning' });
const DOUBT_ERROR = rankOfVerdict({ outcome: 'cantTell', level: 'error' });
const DOUBT_WARNING = rankOfVerdict({ outcome: 'cantTell', level: 'warning' });

const OVER = 1 + CLOSE;
const UNDER = 1 - CLOSE;

/**
 * `rock-crowding` from columns, kind by kind: on all animals of a kind the same claims weigh. What they come to at most, with everyone full grown,
 * settles most scenarios; else it does for most kinds.
 */
export function rockCrowdingKernel({ columns, places }: Shared, options: RockCrowdingOptions): Kernel {
  const { errorShare } = options;
  const claimants = claimantsIn(places, options);
  if (claimants.many === 0) return () => NOTHING_RANK;
  if (columns.stock.tank.rockL === undefined) return () => DOUBT_WARNING;
  const { lacks, isWeighedOn, weighing, weights, certainUntil, vary } = claimants;
  const quiet = lacks ? DOUBT_ERROR : isWeighedOn ? PASSED_RANK : INAPPLICABLE_RANK;
  const rock = columns.ofTank('rock');
  const claim = columns.ofAnimals('claim');
  const held = holdingOf(claimants, places);
  const full = fullGrownOf(claimants, claim);
  // Those on whom most may weigh come first: what comes to less need not be worked out.
  const rows = Int32Array.from({ length: claimants.many }, (_, row) => row).sort(
    (one, other) => (full.worst[other] as number) - (full.worst[one] as number),
  );
  const atError = Math.max(1, errorShare);

  return () => {
    if (vary) full.workOut();
    const rockL = rock.centre[0] as number;
    const rockLow = rock.low[0] as number;
    if ((full.most[0] as number) < rockL * UNDER && (lacks || (full.most[1] as number) < rockLow * UNDER)) return quiet;

    needEnds(places);
    held.workOut();
    let most = 0;
    for (let turn = 0; turn < rows.length; turn += 1) {
      const row = rows[turn] as number;
      // What makes it no worse is not worked out.
      if ((full.claimed[row] as number) < rockL * (most > rockL * OVER ? atError : 1) * UNDER) continue;
      let claimed = 0;
      const end = certainUntil[row] as number;
      for (let index = weighing.from[row] as number; index < end; index += 1) {
        const by = weighing.members[index] as number;
        claimed += (weights[index] as number) * (held.litres[by] as number);
      }
      most = Math.max(most, claimed);
      if (most > rockL * atError * OVER) {
        first(rows, turn);
        return FAILED_ERROR;
      }
    }
    if (most > rockL * OVER) return most < rockL * errorShare * UNDER ? FAILED_WARNING : LEFT;
    if (!(most < rockL * UNDER)) return LEFT;
    if (lacks) return DOUBT_ERROR;

    let rank = quiet;
    for (let turn = 0; turn < rows.length; turn += 1) {
      const row = rows[turn] as number;
      const enough = rockLow * (rank === DOUBT_WARNING ? atError : 1) * UNDER;
      if ((full.worst[row] as number) < enough) continue;
      let sum = 0;
      let squares = 0;
      const end = weighing.from[row + 1] as number;
      for (let index = weighing.from[row] as number; index < end; index += 1) {
        const by = weighing.members[index] as number;
        const weight = weights[index] as number;
        sum += weight * (held.litres[by] as number);
        squares += weight * weight * (held.squares[by] as number);
      }
      const atMost = sum + Math.sqrt(squares);
      // Errors of claims and rock, taken together, are no more than one after the other, and no less than either.
      if (sum === 0 || atMost < enough) continue;
      if (Math.max(sum / rockLow, atMost / rockL) > OVER && atMost / rockLow < errorShare * UNDER) {
        rank = DOUBT_WARNING;
        continue;
      }
      const ofClaims = Math.log(atMost / sum);
      const ofRock = Math.log(rockL / rockLow);
      const share = (sum / rockL) * Math.exp(Math.sqrt(ofClaims * ofClaims + ofRock * ofRock));
      if (share < UNDER) continue;
      if (!(share > OVER)) return LEFT;
      if (share > errorShare * OVER) {
        first(rows, turn);
        return DOUBT_ERROR;
      }
      if (!(share < errorShare * UNDER)) return LEFT;
      rank = DOUBT_WARNING;
    }
    return rank;
  };
}

/** What settles it in one scenario may well do so in the next. */
function first(rows: Int32Array, turn: number): void {
  const row = rows[turn] as number;
  rows[turn] = rows[0] as number;
  rows[0] = row;
}

/** By kind the litres that its animals hold at the horizon, and the sum of the squares of their errors. */
interface Holding {
  readonly litres: Float64Array;
  readonly squares: Float64Array;
  readonly workOut: () => void;
}

function holdingOf({ places: holders, counts, first, isShared }: Claimants, places: Places): Holding {
  const litres = new Float64Array(first.length);
  const squares = new Float64Array(first.length);
  return {
    litres,
    squares,
    workOut: () => {
      const claims = places.claims;
      const ofOne = places.squares;
      for (let kind = 0; kind < litres.length; kind += 1) {
        let sum = 0;
        let sumOfSquares = 0;
        const end = holders.from[kind + 1] as number;
        for (let index = holders.from[kind] as number; index < end; index += 1) {
          const place = holders.members[index] as number;
          const count = counts[index] as number;
          const one = count * (claims[place] as number);
          const square = count * count * (ofOne[place] as number);
          if (isShared[kind] === 0) {
            sum += one;
            sumOfSquares += square;
          } else if (one > sum) {
            // The largest is held together.
            sum = one;
            sumOfSquares = square;
          }
        }
        litres[kind] = sum;
        squares[kind] = sumOfSquares;
      }
    },
  };
}

const errorOf = ({ centre, high }: BandColumns, at: number): number => (high[at] as number) / (centre[at] as number) - 1;

/** What weighs on claimants with everyone full grown: no length makes it more. */
interface FullGrown {
  /** By claimant: for certain, and with all doubts and errors of claims. */
  readonly claimed: Float64Array;
  readonly worst: Float64Array;
  /** The most of either: at 0 for certain, at 1 with all doubts. */
  readonly most: Float64Array;
  readonly workOut: () => void;
}

function fullGrownOf({ many, counts, places, first, isShared, weighing, weights, certainUntil }: Claimants, claim: BandColumns): FullGrown {
  const claimed = new Float64Array(many);
  const worst = new Float64Array(many);
  const most = new Float64Array(2);
  const times = Float64Array.from(first, (_, kind) =>
    isShared[kind] === 1 ? 1 : counts.subarray(places.from[kind], places.from[kind + 1]).reduce((sum, count) => sum + count, 0),
  );
  const workOut = (): void => {
    most.fill(0);
    for (let row = 0; row < many; row += 1) {
      let sum = 0;
      let errors = 0;
      claimed[row] = 0;
      const end = weighing.from[row + 1] as number;
      for (let index = weighing.from[row] as number; index < end; index += 1) {
        const kind = weighing.members[index] as number;
        const at = first[kind] as number;
        const litres = (weights[index] as number) * (times[kind] as number) * (claim.centre[at] as number);
        sum += litres;
        // No less than the root of the sum of their squares.
        errors += litres * errorOf(claim, at);
        if (index < (certainUntil[row] as number)) claimed[row] = sum;
      }
      worst[row] = sum + errors;
      most[0] = Math.max(most[0] as number, claimed[row] as number);
      most[1] = Math.max(most[1] as number, worst[row] as number);
    }
  };
  workOut();
  return { claimed, worst, most, workOut };
}
