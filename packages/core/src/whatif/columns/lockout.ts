import { logRatioAtChance } from '../../biology/chance-of-winning.js';
import { companionship } from '../../rules/companions.js';
import { isThereBefore, type LockoutOptions } from '../../rules/lockout.js';
import { isSettledAnew, sameSort } from '../../rules/odds.js';
import { freeShelter, mayLackShelter } from '../../rules/refuge.js';
import type { StockAnimal } from '../../stock/stock.js';
import { type Contests, contestsOn, logRatioIn, type Meeting, type Standing, standingAt } from './contests.js';
import { CLOSE, INAPPLICABLE_RANK, type Kernel, LEFT, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import { needDays } from './places.js';
import { attack, type Attacker, goTo, type Ground, type Refuges, spareAtWorstIn, spareIn } from './refuges.js';

/** A newcomer, and those that would keep it off what they hold unless it beats them. */
interface Entry {
  readonly holders: readonly Holder[];
  /** Of each, whether it keeps the newcomer off in the scenario that is looked at: KEEPS or MAY_KEEP. */
  readonly keeps: Int8Array;
  /** Its ground on the day it comes in, and at the horizon, when all claim most. */
  readonly ground: Ground;
  readonly groundAtEnd: Ground;
  readonly lacksShelter: boolean;
  readonly mayLackShelter: boolean;
  /** The gravest that it may come to. */
  readonly most: number;
}

interface Holder {
  readonly meeting: Meeting;
  /** What it does to newcomers; below 0 where it is not known. */
  readonly step: number;
  readonly attacker: Attacker;
  readonly attackerAtEnd: Attacker;
}

const FAILS = {
  warning: rankOfVerdict({ outcome: 'failed', level: 'warning' }),
  error: rankOfVerdict({ outcome: 'failed', level: 'error' }),
};
const DOUBTS = {
  warning: rankOfVerdict({ outcome: 'cantTell', level: 'warning' }),
  error: rankOfVerdict({ outcome: 'cantTell', level: 'error' }),
};

/** All that is laid out for a stock. */
interface Layout {
  readonly contests: Contests;
  readonly refuges: Refuges;
  /** Logarithm of the ratio from which a contest is even. */
  readonly fromRatio: number;
  readonly errorFrom: number;
  /** From the gravest down. */
  readonly entries: readonly Entry[];
  /** The rank of what does not vary. */
  readonly least: number;
}

/** The rule `lockout` in columns: who may keep whom out, and from where, is laid out once. */
export function lockoutOn(shared: Shared, options: LockoutOptions): Kernel | undefined {
  const layout = layOut(shared, options);
  return layout === undefined ? undefined : () => worstOf(layout);
}

function layOut({ columns, places, refuges }: Shared, options: LockoutOptions): Layout | undefined {
  const { stock, isFixed } = columns;
  const contests = contestsOn(places, options);
  const fromRatio = logRatioAtChance(options.evenFrom);
  if (contests === undefined || Number.isNaN(fromRatio) || !isFixed(stock.tank.shelters)) return undefined;
  const { attackFrom, errorFrom } = options;
  const indexes = stock.animals.map((_, at) => at);
  const animalAt = (at: number): StockAnimal => stock.animals[at] as StockAnimal;

  const stepOf = (at: number): number => animalAt(at).kind.pugnacity?.newcomers ?? -1;

  const entryOf = (at: number, day: number): Entry | 'inapplicable' | undefined => {
    const newcomer = animalAt(at);
    if (isSettledAnew(stock, day)) return 'inapplicable';
    const present = indexes.filter((other) => other !== at && isThereBefore(animalAt(other), day));
    const rivals = present.filter((other) => sameSort(animalAt(other), newcomer));
    if (rivals.some((other) => !isFixed(animalAt(other).kind.record.conduct?.company))) return undefined;
    const strangers = rivals.filter((other) => companionship(stock, animalAt(other), newcomer) !== 'bonded');
    // Those of which it is not known what they do to newcomers may be holders as well.
    const fierce = strangers.filter((other) => stepOf(other) < 0 || stepOf(other) >= attackFrom);
    if (fierce.length === 0) return 'inapplicable';
    const end = Math.max(stock.horizonDay, day);
    const holders = fierce.map((other): Holder | undefined => {
      const meeting = contests.meetingOf(other, at, day, true, false);
      if (meeting === undefined) return undefined;
      return {
        meeting,
        step: stepOf(other),
        attacker: refuges.attackerOn(at, day, other, present),
        attackerAtEnd: refuges.attackerOn(at, end, other, present),
      };
    });
    if (holders.includes(undefined)) return undefined;
    const others = present.map(animalAt);
    const shelter = freeShelter(stock, newcomer, others);
    const known = holders as Holder[];
    const most = Math.max(...known.map(({ step }) => step));
    return {
      holders: known,
      keeps: new Int8Array(known.length),
      ground: refuges.groundOf(at, day, present),
      groundAtEnd: refuges.groundOf(at, end, present),
      lacksShelter: shelter !== undefined && shelter.free < newcomer.count,
      mayLackShelter: mayLackShelter(stock, newcomer, others, newcomer.count),
      most: most < 0 ? DOUBTS.error : most >= errorFrom ? FAILS.error : FAILS.warning,
    };
  };

  let least = NOTHING_RANK;
  const entries: Entry[] = [];
  for (const at of indexes) {
    const { role, entryDay } = animalAt(at);
    if (role !== 'newcomer' || entryDay === undefined) continue;
    const entry = entryOf(at, entryDay);
    if (entry === undefined) return undefined;
    least = Math.max(least, INAPPLICABLE_RANK);
    if (entry !== 'inapplicable') entries.push(entry);
  }
  entries.sort((one, other) => other.most - one.most);

  return { contests, refuges, fromRatio, errorFrom, entries, least };
}

function worstOf(layout: Layout): number {
  const { entries } = layout;
  let rank = layout.least;
  for (let index = 0; index < entries.length; index += 1) {
    const entry = entries[index] as Entry;
    if (entry.most <= rank) break;
    const reached = rankIn(layout, entry, rank);
    if (reached === LEFT) return LEFT;
    if (reached > rank) rank = reached;
  }
  return rank;
}

/** What an entry comes to, where that may be above a rank; LEFT where it is close. */
function rankIn(layout: Layout, entry: Entry, above: number): number {
  const { refuges, errorFrom } = layout;
  const { holders, keeps, ground, groundAtEnd, lacksShelter } = entry;
  if (!lacksShelter && !entry.mayLackShelter && above >= PASSED_RANK) {
    // Where all keep it off, and all claim what they ever will, it still has room.
    goTo(refuges, groundAtEnd);
    for (let index = 0; index < holders.length; index += 1) attack(refuges, (holders[index] as Holder).attackerAtEnd, 1);
    if (spareIn(refuges) > CLOSE && spareAtWorstIn(refuges) > CLOSE) return above;
  }
  needDays(refuges.places);
  goTo(refuges, ground);
  let step = -1;
  let isKept = false;
  let mayBeKept = false;
  for (let index = 0; index < holders.length; index += 1) {
    const holder = holders[index] as Holder;
    const is = keeping(layout, holder);
    if (is === LEFT) return LEFT;
    keeps[index] = is;
    if (is === MAY_KEEP) mayBeKept = true;
    if (is !== KEEPS) continue;
    isKept = true;
    attack(refuges, holder.attacker, 1);
    if (holder.step > step) step = holder.step;
  }
  if (isKept) {
    const fails = step >= errorFrom ? FAILS.error : FAILS.warning;
    const spare = spareIn(refuges);
    if (Math.abs(spare) < CLOSE) return LEFT;
    if (spare < 0 || lacksShelter) return fails;
  } else if (!mayBeKept) return INAPPLICABLE_RANK;
  const doubts = mayBeKept || step >= errorFrom ? DOUBTS.error : DOUBTS.warning;
  if (lacksShelter || entry.mayLackShelter) return doubts;
  for (let index = 0; mayBeKept && index < holders.length; index += 1) {
    if (keeps[index] === MAY_KEEP) attack(refuges, (holders[index] as Holder).attacker, 1);
  }
  const atWorst = spareAtWorstIn(refuges);
  if (Math.abs(atWorst) < CLOSE) return LEFT;
  return atWorst < 0 ? doubts : PASSED_RANK;
}

const KEEPS = 1;
const MAY_KEEP = 2;

/** Whether one keeps the newcomer off, may do so, or does not (0); LEFT where it is close. */
function keeping({ contests, fromRatio }: Layout, { meeting, step }: Holder): number {
  const logRatio = logRatioIn(contests, meeting);
  const at = standingAt(contests, meeting, logRatio);
  if (at === LEFT) return LEFT;
  const { shift, shiftAtMost } = meeting.standings[at] as Standing;
  const odds = logRatio + shift;
  const oddsAtMost = logRatio + shiftAtMost;
  if (Math.abs(odds - fromRatio) < CLOSE || Math.abs(oddsAtMost - fromRatio) < CLOSE) return LEFT;
  if (oddsAtMost < fromRatio) return 0;
  return step >= 0 && odds > fromRatio ? KEEPS : MAY_KEEP;
}
