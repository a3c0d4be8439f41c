import type { Level } from '@commensal/schema';
import { LEVELS } from '../../rules/levels.js';
import { type Asking, OUTCOMES } from './outputs.js';

const PASSED = OUTCOMES.indexOf('passed');
const CANT_TELL = OUTCOMES.indexOf('cantTell');
const FAILED = OUTCOMES.indexOf('failed');

/**
 * Outcome and level of a judgement as one number, the graver the greater: places in OUTCOMES and LEVELS. What is no finding has no level.
 */
export const rankOf = (outcome: number, level: number): number => 4 * outcome + (outcome < CANT_TELL ? 0 : level + 1);

const outcomeIn = (rank: number): number => rank >> 2;
const levelIn = (rank: number): number => (rank & 3) - 1;

/** Whether one asks for findings that name all of these animals. */
export type Names = (subjects: readonly string[]) => boolean;

/** What all judgements of one rule come to, for each that is asked of it. */
export interface Tally {
  /** Forgets all that came in since the last time it was kept. */
  readonly start: () => void;
  /** What has come in so far is there at every start. */
  readonly keep: () => void;
  /** Takes a judgement in; of findings, which animals they name and in how many days they set in, where that is asked and told. */
  readonly add: (rank: number, names?: Names, days?: number) => void;
  /** Whether nothing that could come in would change it. */
  readonly isFull: () => boolean;
  readonly write: (into: Float64Array, at: number) => void;
}

/** A tally of what is asked of one rule, which comes to a failure of level `gravest` at most. */
export function tallyOf(askings: readonly Asking[], gravest: Level = 'error'): Tally {
  const worst = rankOf(FAILED, LEVELS.indexOf(gravest));
  const asksDays = askings.some(({ what }) => what === 'first-failure');
  const ranks = new Int32Array(askings.length);
  const firsts = new Float64Array(askings.length);
  const keptRanks = new Int32Array(askings.length);
  const keptFirsts = new Float64Array(askings.length).fill(Number.POSITIVE_INFINITY);
  return {
    start: () => {
      ranks.set(keptRanks);
      firsts.set(keptFirsts);
    },
    keep: () => {
      keptRanks.set(ranks);
      keptFirsts.set(firsts);
    },
    add: (rank, names, days) => {
      const outcome = outcomeIn(rank);
      for (let index = 0; index < askings.length; index += 1) {
        const { what, subjects, from } = askings[index] as Asking;
        const isNamed = outcome < CANT_TELL || subjects.length === 0 || names?.(subjects) === true;
        // Of some animals only findings tell; what names others has nothing against these.
        const counted = isNamed ? rank : rankOf(PASSED, 0);
        if (counted > (ranks[index] as number)) ranks[index] = counted;
        if (what === 'first-failure' && outcome === FAILED && isNamed && days !== undefined && levelIn(rank) >= from)
          firsts[index] = Math.min(firsts[index] as number, days);
      }
    },
    isFull: () => !asksDays && ranks.every((rank) => rank >= worst),
    write: (into, at) => {
      for (let index = 0; index < askings.length; index += 1) {
        const { what, column } = askings[index] as Asking;
        const first = firsts[index] as number;
        if (what === 'first-failure') into[at + column] = first === Number.POSITIVE_INFINITY ? Number.NaN : first;
        else writeOutcome(ranks[index] as number, into, at + column);
      }
    },
  };
}

/** Outcome and level of the gravest judgement; no level where there is no finding. */
export function writeOutcome(rank: number, into: Float64Array, at: number): void {
  const level = levelIn(rank);
  into[at] = outcomeIn(rank);
  into[at + 1] = level < 0 ? Number.NaN : level;
}
