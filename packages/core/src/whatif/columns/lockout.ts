import { logRatioAtChance } from '../../biology/chance-of-winning.js';
import { companionship } from '../../rules/companions.js';
import { isThereBefore, type LockoutOptions } from '../../rules/lockout.js';
import { isSettledAnew, sameSort } from '../../rules/odds.js';
import { freeShelter, mayLackShelter } from '../../rules/refuge.js';
import type { StockAnimal } from '../../stock/stock.js';
import {
  type OddsBound,
  oddsIn,
  bestOddsOf,
  type Contests,
  contestsOn,
  type Meeting,
  noteBounds,
  noteRatio,
  type Standing,
  standingBetween,
} from './contests.js';
import { CLOSE, INAPPLICABLE_RANK, type Kernel, LEFT, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import { need, needEnds, placesToNeed } from './places.js';
import {
  type Attackers,
  attackersOf,
  goToAttacked,
  type Ground,
  NO_ROOM,
  type Refuges,
  rockAtLeast,
  ROOM,
  roomAtWorstIn,
  roomIn,
  TOO_CLOSE,
} from './refuges.js';

/** A newcomer, and those that would keep it off what they hold unless it beats them. */
interface Entry {
  readonly holders: readonly Holder[];
  /** The best odds of each. */
  readonly odds: OddsBound;
  /** Of each, whether it keeps the newcomer off in the scenario that is looked at: KEEPS or MAY_KEEP. */
  readonly keeps: Int8Array;
  /** Its ground on the day it comes in, and at the horizon, when all claim most. */
  readonly ground: Ground;
  readonly groundAtEnd: Ground;
  /** The holders there. */
  readonly attackers: Attackers;
  readonly attackersAtEnd: Attackers;
  /** Where bounds do not tell these are worked out. */
  readonly needed: Int32Array;
  /** Litres of rock beyond which it has room, whatever all are. */
  readonly rockFor: number;
  readonly lacksShelter: boolean;
  readonly mayLackShelter: boolean;
  /** The gravest that it may come to. */
  readonly most: number;
}

interface Holder {
  readonly meeting: Meeting;
  /** What it does to newcomers; below 0 where it is not known. */
  readonly step: number;
  /** Where bounds do not tell these are worked out. */
  readonly needed: Int32Array;
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
        needed: placesToNeed(places, [meeting.one, meeting.other]),
      };
    });
    if (holders.includes(undefined)) return undefined;
    const others = present.map(animalAt);
    const shelter = freeShelter(stock, newcomer, others);
    const lacksShelter = shelter !== undefined && shelter.free < newcomer.count;
    const mayLack = mayLackShelter(stock, newcomer, others, newcomer.count);
    const known = holders as Holder[];
    const most = Math.max(...known.map(({ step }) => step));
    const attackersOn = (on: number): Attackers =>
      attackersOf(
        fierce.map((other) => refuges.attackerOn(at, on, other, present)),
        () => 1,
      );
    const ground = refuges.groundOf(at, () => day, present);
    return {
      holders: known,
      odds: bestOddsOf(
        contests,
        known.map(({ meeting }) => meeting),
      ),
      keeps: new Int8Array(known.length),
      ground,
      attackers: attackersOn(day),
      attackersAtEnd: attackersOn(end),
      groundAtEnd: refuges.groundOf(at, () => end, present),
      needed: placesToNeed(places, [places.placeOf(at, day), ...ground.others, ...known.map(({ meeting }) => meeting.one)]),
      rockFor: lacksShelter || mayLack ? Number.POSITIVE_INFINITY : refuges.rockFor(at, present, fierce, 1),
      lacksShelter,
      mayLackShelter: mayLack,
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
  const { entries, refuges } = layout;
  const { places } = refuges;
  const rockL = rockAtLeast(refuges);
  let rank = layout.least;
  for (let index = 0; index < entries.length; index += 1) {
    const entry = entries[index] as Entry;
    if (entry.most <= rank) break;
    if (rank >= PASSED_RANK && rockL > entry.rockFor) continue;
    if (places.endsIn !== places.columns.scenario) needEnds(places);
    const reached = rankIn(layout, entry);
    if (reached === LEFT) return LEFT;
    if (reached > rank) rank = reached;
  }
  return rank;
}

/** What an entry comes to; LEFT where it is close. */
function rankIn(layout: Layout, entry: Entry): number {
  const { refuges, errorFrom, fromRatio } = layout;
  const { holders, odds, keeps, lacksShelter } = entry;
  const { places } = refuges;
  let step = -1;
  let isKept = false;
  let mayBeKept = false;
  for (let index = 0; index < holders.length; index += 1) {
    keeps[index] = 0;
    if (oddsIn(places, odds, index) < fromRatio - CLOSE) continue;
    const holder = holders[index] as Holder;
    const is = keeping(layout, holder);
    if (is === LEFT) return LEFT;
    keeps[index] = is;
    if (is === MAY_KEEP) mayBeKept = true;
    if (is !== KEEPS) continue;
    isKept = true;
    if (holder.step > step) step = holder.step;
  }
  if (!isKept && !mayBeKept) return INAPPLICABLE_RANK;
  const fails = step >= errorFrom ? FAILS.error : FAILS.warning;
  const doubts = mayBeKept || step >= errorFrom ? DOUBTS.error : DOUBTS.warning;
  const mayLack = lacksShelter || entry.mayLackShelter;
  if (isKept && lacksShelter) return fails;
  // At the horizon all claim most: mostly there is room even then.
  stand(refuges, entry, true, MAY_KEEP);
  if (!mayLack && roomAtWorstIn(refuges) === ROOM) return PASSED_RANK;
  if (isKept && roomIn(refuges) !== ROOM) {
    need(places, entry.needed);
    stand(refuges, entry, false, KEEPS);
    const room = roomIn(refuges);
    if (room === TOO_CLOSE) return LEFT;
    if (room === NO_ROOM) return fails;
  }
  if (mayLack) return doubts;
  need(places, entry.needed);
  stand(refuges, entry, false, MAY_KEEP);
  const atWorst = roomAtWorstIn(refuges);
  if (atWorst === TOO_CLOSE) return LEFT;
  return atWorst === NO_ROOM ? doubts : PASSED_RANK;
}

/** Goes to the ground of a newcomer on the day it comes in or at the horizon, attacked by those that keep it off, and where so far is said by those that may. */
const stand = (refuges: Refuges, { keeps, ground, groundAtEnd, attackers, attackersAtEnd }: Entry, isAtEnd: boolean, upTo: number): void =>
  goToAttacked(refuges, isAtEnd ? groundAtEnd : ground, isAtEnd ? attackersAtEnd : attackers, keeps, upTo);

const KEEPS = 1;
const MAY_KEEP = 2;

/** Whether one keeps the newcomer off, may do so, or does not (0); LEFT where it is close. By bounds, where these tell. */
function keeping(layout: Layout, holder: Holder): number {
  const { contests } = layout;
  const { meeting } = holder;
  if (meeting.isMeasured) {
    noteBounds(contests, meeting);
    const is = keepingBetween(layout, holder);
    if (is !== LEFT) return is;
  }
  need(contests.places, holder.needed);
  noteRatio(contests, meeting);
  return keepingBetween(layout, holder);
}

/** The same where the logarithm of the ratio of strengths lies between the two that are noted; LEFT where they do not tell. */
function keepingBetween({ contests, fromRatio }: Layout, { meeting, step }: Holder): number {
  const least = contests.ratios[0] as number;
  const most = contests.ratios[1] as number;
  const at = standingBetween(contests, meeting, least, most);
  if (at === LEFT) return LEFT;
  const { shift, shiftAtMost } = meeting.standings[at] as Standing;
  if (most + shiftAtMost < fromRatio) return 0;
  if (least + shiftAtMost < fromRatio) return LEFT;
  if (step >= 0 && least + shift > fromRatio) return KEEPS;
  return step >= 0 && most + shift > fromRatio ? LEFT : MAY_KEEP;
}
