import type { Finding } from '@commensal/schema';
import { firstWhere } from '../quantity/first-where.js';
import type { Arrangement } from './arrange.js';
import type { Field } from './field.js';
import { dayAt, excludesForGood, findingsWith, type Ground, isFixed, placesFor } from './ground.js';
import { newcomerFrom, type Pick } from './line.js';
import { minimalConflict } from './minimal-conflict.js';
import { type Meeting, placesToMeet } from './places.js';

/** Picks that cannot come in together: in no larger set either, or in none of so many batches or fewer. */
export interface CannotBe {
  readonly picks: readonly Pick[];
  /** Infinity where no number of batches helps. */
  readonly batches: number;
  /** It is for a sum: with more of any of them it is over as well. */
  readonly isSum: boolean;
}

/**
 * A smallest part of some picks that cannot come in together: no lengths and places are left with which no two of them exclude each
 * other, or what they claim is over its limit at its least. Undefined where that is not so.
 */
export function cannotBe(field: Field, picks: readonly Pick[]): CannotBe | undefined {
  const batches = new Set(picks.map(({ line }) => line.batch)).size;
  const named = inTheWay(field.ground, picks, batches);
  if (named === undefined) return undefined;
  const canMeet = (some: readonly Pick[], inBatches = batches): boolean => inTheWay(field.ground, some, inBatches) === undefined;
  // Those of one claim are mostly enough, and far fewer.
  const suspects = named.picks.length < picks.length && !canMeet(named.picks) ? named.picks : picks;
  const least = minimalConflict(suspects, (some) => canMeet(some)) ?? [...picks];
  const most = batchesBeside(field, least);
  const standing = inTheWay(field.ground, least, most);
  if (standing !== undefined) return { picks: least, batches: Number.POSITIVE_INFINITY, isSum: standing.isSum };
  // More batches would do: as many as are known not to.
  const enough = firstWhere(batches + 1, most, (more) => canMeet(least, more));
  return { picks: least, batches: enough - 1, isSum: false };
}

interface InTheWay {
  readonly picks: readonly Pick[];
  readonly isSum: boolean;
}

/** Undefined where some picks can come in, as far as is asked here; else those among which it is to be looked for why they cannot. */
function inTheWay(ground: Ground, picks: readonly Pick[], batches: number): InTheWay | undefined {
  if (picks.length === 0) return undefined;
  const positions = placesFor(ground, batches);
  const meeting = placesToMeet(ground, picks, positions);
  if (meeting.places === undefined && meeting.decided) return { picks, isSum: false };
  const finding = overfull(ground, picks, meeting, positions);
  if (finding === undefined) return undefined;
  return { picks: picks.filter(({ line }) => finding.subjects.some(({ id }) => id === line.id)), isSum: true };
}

/** Batches of the largest set that could hold some picks: theirs, and those of all that does not exclude one of them. */
function batchesBeside({ options, conflict }: Field, picks: readonly Pick[]): number {
  const beside = options.filter(({ line }) => !picks.some((pick) => pick.line !== line && conflict(pick.line, line)));
  return new Set([...picks, ...beside].map(({ line }) => line.batch)).size;
}

/** A sum that only grows and is over its limit already, with everything as small and late as it can be. */
function overfull(ground: Ground, picks: readonly Pick[], { latest }: Meeting, positions: number): Finding | undefined {
  const ids = new Set(picks.map((pick) => pick.line.id));
  const newcomers = picks.map((pick) =>
    newcomerFrom(pick, Math.max(pick.line.readyDay, dayAt(ground, latest.get(pick.line.id) ?? positions - 1)), pick.line.lengthsCm[0]),
  );
  return findingsWith(ground, newcomers, ground.sets.capacity).find((finding) => excludesForGood(ground, finding, ids));
}

/** The picks that a finding names which stands at whatever lengths and on whatever days, in whatever company. */
export function fixedFailure(ground: Ground, { picks, excluding }: Arrangement): Pick[] | undefined {
  const ids = new Set(picks.map(({ line }) => line.id));
  const finding = excluding.find((one) => isFixed(ground, one) && excludesForGood(ground, one, ids));
  return finding === undefined ? undefined : picks.filter(({ line }) => finding.subjects.some(({ id }) => id === line.id));
}
