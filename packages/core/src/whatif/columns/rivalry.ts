import { logRatioAtChance } from '../../biology/chance-of-winning.js';
import { type HarmOptions, isOfSolitaryKind, levelOf } from '../../rules/attack.js';
import { companionship } from '../../rules/companions.js';
import { LEVELS } from '../../rules/levels.js';
import { sameSort } from '../../rules/odds.js';
import { freeShelter, mayLackShelter } from '../../rules/refuge.js';
import { comesInto, isToldByCompany, spanOf } from '../../rules/rivalry.js';
import type { StockAnimal } from '../../stock/stock.js';
import {
  type Contests,
  contestsOn,
  leastLogRatioIn,
  logRatioIn,
  type Meeting,
  mostLogRatioIn,
  type Standing,
  standingAt,
} from './contests.js';
import { CLOSE, INAPPLICABLE_RANK, type Kernel, LEFT, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import { needDays } from './places.js';
import { attack, type Attacker, goTo, type Ground, type Refuges, spareAtWorstIn, spareIn } from './refuges.js';

/** What one may do to the other on a day. */
interface Look {
  readonly meeting: Meeting;
  readonly ends: readonly [Ends, Ends, Ends];
  readonly refuge: Refuge;
  /** The same at the horizon, when both claim most. */
  readonly refugeAtEnd: Refuge;
  readonly isAtEnd: boolean;
  /** No shelter is left to the target, or perhaps none. */
  readonly lacksShelter: boolean;
  readonly mayLackShelter: boolean;
}

interface Refuge {
  readonly ground: Ground;
  readonly attacker: Attacker;
}

/** How a standing may end, as weights by which the attacks of two are compared; below 0 where it cannot. */
interface Ends {
  /** Harm that is certain: both are hurt, or the target has no refuge. */
  readonly harmed: number;
  /** Killed in spite of a refuge. */
  readonly hunted: number;
  readonly doubtful: number;
  readonly most: number;
}

interface Pair {
  readonly looks: readonly Look[];
  readonly most: number;
}

/** Within two animals the graver goes first, failures before doubts; a weight is a place in this. */
const weightOf = (level: number, hasFailed: boolean): number => 2 * level + (hasFailed ? 1 : 0);
const RANKS: Int32Array = Int32Array.from(
  LEVELS.flatMap((level) => [rankOfVerdict({ outcome: 'cantTell', level }), rankOfVerdict({ outcome: 'failed', level })]),
);
const rankAt = (weight: number): number => (weight < 0 ? PASSED_RANK : (RANKS[weight] as number));

/** All that is laid out for a stock. */
interface Layout {
  readonly contests: Contests;
  readonly refuges: Refuges;
  readonly options: HarmOptions;
  /** Logarithms of ratios from which a contest is even, and up to which. */
  readonly fromRatio: number;
  readonly toRatio: number;
  /** Pairs from the gravest down, and the rank that each may come to. */
  readonly pairs: readonly Pair[];
  readonly ceilings: Int32Array;
  /** The rank of what does not vary. */
  readonly least: number;
}

/** The rule `rivalry` in columns: which two may harm each other at all, and how gravely, is laid out once. */
export function rivalryOn(shared: Shared, options: HarmOptions): Kernel | undefined {
  const layout = layOut(shared, options);
  return layout === undefined ? undefined : () => worstOf(layout);
}

function layOut({ columns, places, refuges }: Shared, options: HarmOptions): Layout | undefined {
  const { stock, isFixed } = columns;
  const contests = contestsOn(places, options);
  const { chases, kills } = options;
  const [fromRatio, toRatio] = [logRatioAtChance(options.evenFrom), logRatioAtChance(options.evenTo)];
  if (contests === undefined || Number.isNaN(fromRatio) || Number.isNaN(toRatio) || !isFixed(stock.tank.shelters)) return undefined;

  const endsOf = ({ step }: Standing, aggressor: StockAnimal, target: StockAnimal): Ends => {
    if (step < chases) return { harmed: -1, hunted: -1, doubtful: -1, most: -1 };
    const solitary = isOfSolitaryKind(aggressor, target);
    const level = (harm: 'oneSided' | 'hunted'): number => LEVELS.indexOf(levelOf(solitary, step, harm, options));
    const harmed = weightOf(level('oneSided'), true);
    const hunted = step >= kills ? weightOf(level('hunted'), true) : -1;
    const doubtful = step >= kills ? -1 : weightOf(level('oneSided'), false);
    return { harmed, hunted, doubtful, most: harmed };
  };
  /** The rock that one needs as a refuge is what the other leaves of it. */
  const refugeOn = (one: number, other: number, day: number): Refuge | undefined => {
    const attacker = refuges.attackerOn(other, day, one, []);
    return attacker === undefined ? undefined : { ground: refuges.groundOf(other, day, []), attacker };
  };
  const lookOf = (one: number, other: number, day: number, from: number): Look | 'nothing' | undefined => {
    const [aggressor, target] = [stock.animals[one] as StockAnimal, stock.animals[other] as StockAnimal];
    const isNew = (late: StockAnimal, early: StockAnimal): boolean => day === from && comesInto(stock, late, early);
    const meeting = contests.meetingOf(one, other, day, isNew(target, aggressor), isNew(aggressor, target));
    if (meeting === undefined) return undefined;
    const [first, second, third] = meeting.standings.map((standing) => endsOf(standing, aggressor, target)) as [Ends, Ends, Ends];
    if (first.most < 0 && second.most < 0 && third.most < 0) return 'nothing';
    const shelter = freeShelter(stock, target, []);
    const end = Math.max(stock.horizonDay, day);
    const [refuge, refugeAtEnd] = [refugeOn(one, other, day), refugeOn(one, other, end)];
    if (refuge === undefined || refugeAtEnd === undefined) return undefined;
    return {
      meeting,
      ends: [first, second, third],
      refuge,
      refugeAtEnd,
      isAtEnd: day >= stock.horizonDay,
      lacksShelter: shelter !== undefined && shelter.free <= 0,
      mayLackShelter: mayLackShelter(stock, target, [], 1),
    };
  };

  let least = NOTHING_RANK;
  const pairs: Pair[] = [];
  for (let one = 0; one < stock.animals.length; one += 1) {
    for (let other = one; other < stock.animals.length; other += 1) {
      const [first, second] = [stock.animals[one] as StockAnimal, stock.animals[other] as StockAnimal];
      const span = (one === other && first.count === 1) || !sameSort(first, second) ? undefined : spanOf(stock, first, second);
      if (span === undefined) continue;
      const kinship = companionship(stock, first, second);
      if (!isFixed(first.kind.record.conduct?.company)) return undefined;
      if (kinship === 'bonded' || isToldByCompany(stock, first, second, kinship)) {
        least = Math.max(least, INAPPLICABLE_RANK);
        continue;
      }
      least = Math.max(least, PASSED_RANK);
      const { from, until } = span;
      if (from > until) continue;
      const days = from === until ? [from] : [from, until];
      // The last day is mostly the horizon, which much is known of already.
      const looks = days
        .reverse()
        .flatMap((day) => [lookOf(one, other, day, from), ...(one === other ? [] : [lookOf(other, one, day, from)])]);
      if (looks.includes(undefined)) return undefined;
      const live = looks.filter((look): look is Look => look !== undefined && look !== 'nothing');
      const most = Math.max(-1, ...live.flatMap(({ ends }) => ends.map((end) => end.most)));
      if (live.length > 0) pairs.push({ looks: live, most });
    }
  }
  pairs.sort((one, other) => rankAt(other.most) - rankAt(one.most));
  return { contests, refuges, options, fromRatio, toRatio, pairs, ceilings: Int32Array.from(pairs, ({ most }) => rankAt(most)), least };
}

function worstOf(layout: Layout): number {
  const { pairs, ceilings } = layout;
  let rank = layout.least;
  for (let index = 0; index < pairs.length && (ceilings[index] as number) > rank; index += 1) {
    const { looks } = pairs[index] as Pair;
    let weight = -1;
    for (let at = 0; at < looks.length; at += 1) {
      const look = looks[at] as Look;
      if (!look.isAtEnd) {
        if (cannotReach(layout, look, weight)) continue;
        needDays(layout.refuges.places);
      }
      const end = endIn(layout, look, weight);
      if (end === UNSURE) return LEFT;
      if (end > weight) weight = end;
    }
    const reached = rankAt(weight);
    if (reached > rank) rank = reached;
  }
  return rank;
}

const UNSURE = -2;

/** Whether an attack cannot end in a weight above this one, by what two can be on any day. */
function cannotReach(layout: Layout, look: Look, above: number): boolean {
  const { contests, refuges, options, fromRatio, toRatio } = layout;
  const { meeting, ends, refugeAtEnd } = look;
  const least = leastLogRatioIn(contests, meeting);
  const most = mostLogRatioIn(contests, meeting);
  const at = standingAt(contests, meeting, least);
  if (at === LEFT || standingAt(contests, meeting, most) !== at) return false;
  const end = ends[at] as Ends;
  if (end.most <= above) return true;
  const { step, answer, isKin, shift } = meeting.standings[at] as Standing;
  if (most + shift < fromRatio - CLOSE) return true;
  const canBeEven = answer >= options.standsGround && least + shift < toRatio + CLOSE;
  if (canBeEven || end.hunted > above || look.lacksShelter || look.mayLackShelter) return false;
  goTo(refuges, refugeAtEnd.ground);
  attack(refuges, refugeAtEnd.attacker, isKin ? options.kinReach : 1);
  const isEnough = end.doubtful <= above || (step < options.bites && refugeAtEnd.ground.isKnown);
  return spareIn(refuges) > CLOSE && (isEnough || spareAtWorstIn(refuges) > CLOSE);
}

/** How an attack ends, as a weight; -1 not at all, UNSURE where it is close. */
function endIn(layout: Layout, look: Look, above: number): number {
  const { contests, refuges, options, fromRatio, toRatio } = layout;
  const { meeting, ends, refuge } = look;
  const logRatio = logRatioIn(contests, meeting);
  const at = standingAt(contests, meeting, logRatio);
  if (at === LEFT) return UNSURE;
  const { harmed, hunted, doubtful, most } = ends[at] as Ends;
  if (most <= above) return -1;
  const { step, answer, isKin, shift } = meeting.standings[at] as Standing;
  const odds = logRatio + shift;
  if (Math.abs(odds - fromRatio) < CLOSE) return UNSURE;
  if (odds < fromRatio) return -1;
  if (answer >= options.standsGround) {
    if (Math.abs(odds - toRatio) < CLOSE) return UNSURE;
    if (odds < toRatio) return harmed;
  }
  if (look.lacksShelter) return harmed;
  goTo(refuges, refuge.ground);
  attack(refuges, refuge.attacker, isKin ? options.kinReach : 1);
  const spare = spareIn(refuges);
  if (Math.abs(spare) < CLOSE) return UNSURE;
  if (spare < 0) return harmed;
  if (hunted >= 0) return hunted;
  if (doubtful <= above) return -1;
  if (look.mayLackShelter) return doubtful;
  if (step < options.bites && refuge.ground.isKnown) return -1;
  const atWorst = spareAtWorstIn(refuges);
  if (Math.abs(atWorst) < CLOSE) return UNSURE;
  return atWorst < 0 ? doubtful : -1;
}
