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
  /** Harm that is certain: both are hurt, or the target has no refuge; killed in spite of one. */
  readonly harmed: number;
  readonly hunted: number;
  /** The same where it may be. */
  readonly mayHarm: number;
  readonly mayHunt: number;
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

  const endsOf = ({ step, most }: Standing, aggressor: StockAnimal, target: StockAnimal): Ends => {
    const solitary = isOfSolitaryKind(aggressor, target);
    const weightAt = (at: number, from: number, harm: 'oneSided' | 'hunted', hasFailed: boolean): number =>
      at < from ? -1 : weightOf(LEVELS.indexOf(levelOf(solitary, at, harm, options)), hasFailed);
    const harmed = weightAt(step, chases, 'oneSided', true);
    const mayHarm = weightAt(most, chases, 'oneSided', false);
    const hunted = weightAt(step, Math.max(chases, kills), 'hunted', true);
    const mayHunt = weightAt(most, Math.max(chases, kills), 'hunted', false);
    return { harmed, hunted, mayHarm, mayHunt, most: Math.max(harmed, mayHarm) };
  };
  /** The rock that one needs as a refuge is what the other leaves of it. */
  const refugeOn = (one: number, other: number, day: number): Refuge => ({
    ground: refuges.groundOf(other, day, []),
    attacker: refuges.attackerOn(other, day, one, []),
  });
  const lookOf = (one: number, other: number, day: number, from: number): Look | 'nothing' | undefined => {
    const [aggressor, target] = [stock.animals[one] as StockAnimal, stock.animals[other] as StockAnimal];
    const isNew = (late: StockAnimal, early: StockAnimal): boolean => day === from && comesInto(stock, late, early);
    const meeting = contests.meetingOf(one, other, day, isNew(target, aggressor), isNew(aggressor, target));
    if (meeting === undefined) return undefined;
    const [first, second, third] = meeting.standings.map((standing) => endsOf(standing, aggressor, target)) as [Ends, Ends, Ends];
    if (first.most < 0 && second.most < 0 && third.most < 0) return 'nothing';
    const shelter = freeShelter(stock, target, []);
    return {
      meeting,
      ends: [first, second, third],
      refuge: refugeOn(one, other, day),
      refugeAtEnd: refugeOn(one, other, Math.max(stock.horizonDay, day)),
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
  if (!meeting.isMeasured) return false;
  const least = leastLogRatioIn(contests, meeting);
  const most = mostLogRatioIn(contests, meeting);
  const at = standingAt(contests, meeting, least);
  if (at === LEFT || standingAt(contests, meeting, most) !== at) return false;
  const { hunted, mayHarm, mayHunt, most: mostOfAll } = ends[at] as Ends;
  if (mostOfAll <= above) return true;
  const standing = meeting.standings[at] as Standing;
  if (most + standing.shiftAtMost < fromRatio - CLOSE) return true;
  const canBeEven = standing.answerAtMost >= options.standsGround && least + standing.shiftAtLeast < toRatio + CLOSE;
  if (canBeEven || hunted > above || mayHunt > above || look.lacksShelter || look.mayLackShelter) return false;
  goTo(refuges, refugeAtEnd.ground);
  attack(refuges, refugeAtEnd.attacker, standing.isKin ? options.kinReach : 1);
  const isEnough = mayHarm <= above || (standing.most < options.bites && refuges.isKnown);
  return spareIn(refuges) > CLOSE && (isEnough || spareAtWorstIn(refuges) > CLOSE);
}

/** How an attack ends, as a weight; -1 not at all, UNSURE where it is close. Judged at the centre, then at the point less favourable to the target. */
function endIn(layout: Layout, look: Look, above: number): number {
  const { contests, refuges, options, fromRatio, toRatio } = layout;
  const { meeting, refuge } = look;
  const logRatio = logRatioIn(contests, meeting);
  const at = standingAt(contests, meeting, logRatio);
  if (at === LEFT) return UNSURE;
  const { harmed, hunted, mayHarm, mayHunt, most } = look.ends[at] as Ends;
  if (most <= above) return -1;
  const standing = meeting.standings[at] as Standing;
  const odds = logRatio + standing.shift;
  const oddsAtMost = logRatio + standing.shiftAtMost;
  if (Math.abs(odds - fromRatio) < CLOSE || Math.abs(oddsAtMost - fromRatio) < CLOSE) return UNSURE;
  if (oddsAtMost < fromRatio) return -1;
  // Odds that are not known are no number, and compare as neither.
  const isCertain = harmed >= 0 && odds > fromRatio;
  if (isCertain && standing.answer >= options.standsGround) {
    if (Math.abs(odds - toRatio) < CLOSE) return UNSURE;
    if (odds < toRatio) return harmed;
  }
  if (isCertain && look.lacksShelter) return harmed;
  goTo(refuges, refuge.ground);
  attack(refuges, refuge.attacker, standing.isKin ? options.kinReach : 1);
  const spare = spareIn(refuges);
  if (Math.abs(spare) < CLOSE) return UNSURE;
  if (isCertain && spare < 0) return harmed;
  if (isCertain && hunted >= 0) return hunted;
  if (mayHarm <= above) return -1;
  if (standing.answerAtMost >= options.standsGround) {
    const oddsAtLeast = logRatio + standing.shiftAtLeast;
    if (Math.abs(oddsAtLeast - toRatio) < CLOSE) return UNSURE;
    if (oddsAtLeast < toRatio) return mayHarm;
  }
  if (look.lacksShelter || look.mayLackShelter) return mayHarm;
  const atWorst = standing.most >= options.bites || !refuges.isKnown ? spareAtWorstIn(refuges) : spare;
  if (Math.abs(atWorst) < CLOSE) return UNSURE;
  return atWorst < 0 ? mayHarm : mayHunt;
}
