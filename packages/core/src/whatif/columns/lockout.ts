import { logRatioAtChance } from '../../biology/chance-of-winning.js';
import { companionship } from '../../rules/companions.js';
import { isThereBefore, type LockoutOptions } from '../../rules/lockout.js';
import { isSettledAnew, sameSort } from '../../rules/odds.js';
import { freeShelter, mayLackShelter } from '../../rules/refuge.js';
import type { StockAnimal } from '../../stock/stock.js';
import {
  type Contests,
  contestsOn,
  leastLogRatioIn,
  logRatioIn,
  type Meeting,
  mostLogRatioIn,
  type Standing,
  standingBetween,
} from './contests.js';
import { CLOSE, INAPPLICABLE_RANK, type Kernel, LEFT, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import { need, needEnds, placesToNeed } from './places.js';
import { attack, type Attacker, goTo, type Ground, type Refuges, rockAtLeast, spareAtWorstIn, spareIn } from './refuges.js';

/** A newcomer, and those that would keep it off what they hold unless it beats them. */
interface Entry {
  readonly holders: readonly Holder[];
  /** Of each, whether it keeps the newcomer off in the scenario that is looked at: KEEPS or MAY_KEEP. */
  readonly keeps: Int8Array;
  /** Its ground on the day it comes in; and when all were measured and at the horizon, when they claim least and most. */
  readonly ground: Ground;
  readonly groundAtStart: Ground;
  readonly groundAtEnd: Ground;
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
  readonly attacker: Attacker;
  readonly attackerAtStart: Attacker;
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
        needed: placesToNeed(places, [meeting.one, meeting.other]),
        attacker: refuges.attackerOn(at, day, other, present),
        attackerAtStart: refuges.attackerOn(at, animalAt(other).lengthDay, other, present),
        attackerAtEnd: refuges.attackerOn(at, end, other, present),
      };
    });
    if (holders.includes(undefined)) return undefined;
    const others = present.map(animalAt);
    const shelter = freeShelter(stock, newcomer, others);
    const lacksShelter = shelter !== undefined && shelter.free < newcomer.count;
    const mayLack = mayLackShelter(stock, newcomer, others, newcomer.count);
    const known = holders as Holder[];
    const most = Math.max(...known.map(({ step }) => step));
    const ground = refuges.groundOf(at, () => day, present);
    return {
      holders: known,
      keeps: new Int8Array(known.length),
      ground,
      groundAtStart: refuges.groundOf(at, (one) => animalAt(one).lengthDay, present),
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
    if (rank >= PASSED_RANK && isSurelyFree(layout, entry)) continue;
    const reached = rankIn(layout, entry);
    if (reached === LEFT) return LEFT;
    if (reached > rank) rank = reached;
  }
  return rank;
}

/** Whether a newcomer has room even where all keep it off and claim what they ever will. */
function isSurelyFree({ refuges }: Layout, entry: Entry): boolean {
  if (entry.lacksShelter || entry.mayLackShelter) return false;
  entry.keeps.fill(KEEPS);
  stand(refuges, entry, AT_END, KEEPS);
  return spareIn(refuges) > CLOSE && spareAtWorstIn(refuges) > CLOSE;
}

/** What an entry comes to; LEFT where it is close. */
function rankIn(layout: Layout, entry: Entry): number {
  const { refuges, errorFrom } = layout;
  const { holders, keeps, lacksShelter } = entry;
  let step = -1;
  let isKept = false;
  let mayBeKept = false;
  for (let index = 0; index < holders.length; index += 1) {
    const holder = holders[index] as Holder;
    let is = keeping(layout, holder, true);
    if (is === LEFT) {
      need(refuges.places, holder.needed);
      is = keeping(layout, holder, false);
      if (is === LEFT) return LEFT;
    }
    keeps[index] = is;
    if (is === MAY_KEEP) mayBeKept = true;
    if (is !== KEEPS) continue;
    isKept = true;
    if (holder.step > step) step = holder.step;
  }
  if (!isKept && !mayBeKept) return INAPPLICABLE_RANK;
  const fails = step >= errorFrom ? FAILS.error : FAILS.warning;
  const doubts = mayBeKept || step >= errorFrom ? DOUBTS.error : DOUBTS.warning;
  if (isKept) {
    if (lacksShelter) return fails;
    const spare = spareFor(refuges, entry, KEEPS);
    if (spare === LEFT) return LEFT;
    if (spare === NONE) return fails;
  }
  if (lacksShelter || entry.mayLackShelter) return doubts;
  const spare = spareFor(refuges, entry, MAY_KEEP);
  if (spare === LEFT) return LEFT;
  return spare === NONE ? doubts : PASSED_RANK;
}

const NONE = 0;
const SOME = 1;

/** Whether a newcomer has room where those attack that keep it off, or that may; then at the point less favourable to it. By bounds if they tell; LEFT where it is close. */
function spareFor(refuges: Refuges, entry: Entry, upTo: number): number {
  stand(refuges, entry, AT_END, upTo);
  if (leftIn(refuges, upTo) > CLOSE) return SOME;
  stand(refuges, entry, AT_START, upTo);
  if (leftIn(refuges, upTo) < -CLOSE) return NONE;
  need(refuges.places, entry.needed);
  stand(refuges, entry, ON_DAY, upTo);
  const left = leftIn(refuges, upTo);
  if (Math.abs(left) < CLOSE) return LEFT;
  return left < 0 ? NONE : SOME;
}

/** Where the rock is not known, what is left is no number: only doubts can come of that. */
const leftIn = (refuges: Refuges, upTo: number): number => (upTo === KEEPS ? spareIn(refuges) : spareAtWorstIn(refuges));

const AT_START = 0;
const ON_DAY = 1;
const AT_END = 2;

/** Goes to the ground of a newcomer, attacked by those that keep it off, and where so far is said by those that may. */
function stand(refuges: Refuges, entry: Entry, when: number, upTo: number): void {
  const { holders, keeps } = entry;
  goTo(refuges, when === AT_START ? entry.groundAtStart : when === ON_DAY ? entry.ground : entry.groundAtEnd);
  for (let index = 0; index < holders.length; index += 1) {
    const is = keeps[index] as number;
    if (is === 0 || is > upTo) continue;
    const holder = holders[index] as Holder;
    attack(refuges, when === AT_START ? holder.attackerAtStart : when === ON_DAY ? holder.attacker : holder.attackerAtEnd, 1);
  }
}

const KEEPS = 1;
const MAY_KEEP = 2;

/** Whether one keeps the newcomer off, may do so, or does not (0); LEFT where it is close or bounds do not tell. */
function keeping({ contests, fromRatio }: Layout, { meeting, step }: Holder, byBounds: boolean): number {
  const isBound = byBounds && meeting.isMeasured;
  const logRatio = isBound ? 0 : logRatioIn(contests, meeting);
  const least = (isBound ? leastLogRatioIn(contests, meeting) : logRatio) - CLOSE;
  const most = (isBound ? mostLogRatioIn(contests, meeting) : logRatio) + CLOSE;
  const at = standingBetween(contests, meeting, least, most);
  if (at === LEFT) return LEFT;
  const { shift, shiftAtMost } = meeting.standings[at] as Standing;
  if (most + shiftAtMost < fromRatio) return 0;
  if (least + shiftAtMost < fromRatio) return LEFT;
  if (step >= 0 && least + shift > fromRatio) return KEEPS;
  return step >= 0 && most + shift > fromRatio ? LEFT : MAY_KEEP;
}
