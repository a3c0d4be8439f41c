import type { Problem, SpeciesRecord } from '@commensal/schema';
import type { BodyLength } from './lengths/body-lengths.js';
import type { ProblemContext } from './problem-context.js';

/** What a check finds, with the figures it rests on. One wrong figure must not be told several times over. */
export interface Suspicion {
  readonly problem: Problem;
  /** Pointers of the figures it reads besides the place of the problem: where one of them is in doubt already, nothing is said. */
  readonly reads?: readonly string[];
  /** Pointers of those it throws doubt on; the place of the problem and all that it reads where left out. */
  readonly doubts?: readonly string[];
}

/** Looks at one record that has passed its schema; `lengths` are those of the record, which many checks read. */
export type RecordCheck = (record: SpeciesRecord, context: ProblemContext, lengths: readonly BodyLength[]) => readonly Suspicion[];

const readBy = ({ problem, reads = [] }: Suspicion): readonly string[] => [problem.pointer, ...reads];

/**
 * The problems of suspicions in the order of how basic they are: what rests on a figure that is in doubt already, or was before, is left out.
 *
 * @example
 * toldOnce([slipOfTheMaximum, adultAboveTheMaximum]) // [slipOfTheMaximum.problem]
 */
export function toldOnce(suspicions: readonly Suspicion[], doubtedBefore: Iterable<string> = []): Problem[] {
  const doubted = new Set(doubtedBefore);
  const told: Problem[] = [];
  for (const suspicion of suspicions) {
    if (readBy(suspicion).some((pointer) => doubted.has(pointer))) continue;
    told.push(suspicion.problem);
    for (const pointer of suspicion.doubts ?? readBy(suspicion)) doubted.add(pointer);
  }
  return told;
}
