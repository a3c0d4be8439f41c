import { CONTEST_STEEPNESS } from '../../biology/chance-of-winning.js';
import { DISPLAYS } from '../../rules/hierarchy.js';
import { type Contests, logRatioIn, type Meeting, standingAt } from './contests.js';
import { LEFT } from './kernel.js';
import { need } from './places.js';

/** Contests for places in the hierarchy of a day, in columns: who would rule. */
export interface Hierarchy {
  /** Places of those that are there, and how many stand for each. */
  readonly places: Int32Array;
  readonly counts: Float64Array;
  /** Contest by contest the two, as numbers among those that are there, and whether it matters who is much smaller. */
  readonly one: Int32Array;
  readonly other: Int32Array;
  readonly asks: Uint8Array;
  readonly meetings: readonly Meeting[];
  /** Three for each contest, by who is much smaller: whether the two contest, and what residence and temper are worth to the other. */
  readonly isContested: Uint8Array;
  readonly worth: Float64Array;
  /** Room for a number for each that is there. */
  readonly forces: Float64Array;
  readonly wins: Float64Array;
  readonly rivals: Float64Array;
}

/** Two that may contest, as numbers among those that are there. */
export interface Contest {
  readonly one: number;
  readonly other: number;
  readonly meeting: Meeting;
}

/** Whether two contest for their places, by who is much smaller. */
const contestedIn = ({ standings }: Meeting): number[] =>
  standings.map(({ most, answerAtMost }) => (most >= DISPLAYS || answerAtMost >= DISPLAYS ? 1 : 0));

export const mayContest = ({ meeting }: Contest): boolean => contestedIn(meeting).includes(1);
export const alwaysContest = ({ meeting }: Contest): boolean => !contestedIn(meeting).includes(0);

export function hierarchyOf(places: Int32Array, counts: Float64Array, contests: readonly Contest[]): Hierarchy {
  const room = (): Float64Array => new Float64Array(places.length);
  return {
    places,
    counts,
    one: Int32Array.from(contests, ({ one }) => one),
    other: Int32Array.from(contests, ({ other }) => other),
    asks: Uint8Array.from(contests, ({ meeting }) => (meeting.asks ? 1 : 0)),
    meetings: contests.map(({ meeting }) => meeting),
    isContested: Uint8Array.from(contests.flatMap(({ meeting }) => contestedIn(meeting))),
    worth: Float64Array.from(contests.flatMap(({ meeting }) => meeting.standings.map(({ shift }) => Math.exp(-CONTEST_STEEPNESS * shift)))),
    forces: room(),
    wins: room(),
    rivals: room(),
  };
}

/** Sums of chances count as equal where they agree in billionths; those that may be are left to the rule. */
const EQUAL = 4e-9;

export const NOBODY = -1;
export const UNSURE = -2;

/** Who is likely to rule, as a number among those that are there; NOBODY, or UNSURE where it is close. */
export function rulerIn(contests: Contests, hierarchy: Hierarchy): number {
  const { logs } = contests.places;
  need(contests.places, hierarchy.places);
  const { places, counts, meetings, one: ones, other: others, asks, isContested, worth, forces, wins, rivals } = hierarchy;
  for (let index = 0; index < places.length; index += 1) {
    forces[index] = Math.exp(CONTEST_STEEPNESS * (logs[places[index] as number] as number));
    wins[index] = 0;
    rivals[index] = 0;
  }
  for (let index = 0; index < ones.length; index += 1) {
    const one = ones[index] as number;
    const other = others[index] as number;
    let row = 3 * index;
    if (asks[index] === 1) {
      const meeting = meetings[index] as Meeting;
      const standing = standingAt(contests, meeting, logRatioIn(contests, meeting));
      if (standing === LEFT) return UNSURE;
      row += standing;
    }
    if (isContested[row] === 0) continue;
    const force = forces[one] as number;
    const chance = force / (force + (forces[other] as number) * (worth[row] as number));
    wins[one] = (wins[one] as number) + chance * (counts[other] as number);
    wins[other] = (wins[other] as number) + (1 - chance) * (counts[one] as number);
    rivals[one] = (rivals[one] as number) + (counts[other] as number);
    rivals[other] = (rivals[other] as number) + (counts[one] as number);
  }
  let ruler = NOBODY;
  let best = Number.NEGATIVE_INFINITY;
  let second = Number.NEGATIVE_INFINITY;
  for (let index = 0; index < places.length; index += 1) {
    if (rivals[index] === 0) continue;
    const score = ((wins[index] as number) + 0.5) / ((rivals[index] as number) + 1);
    if (score > best) {
      second = best;
      best = score;
      ruler = index;
    } else if (score > second) second = score;
  }
  return best - second < EQUAL ? UNSURE : ruler;
}
