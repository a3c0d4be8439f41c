import { logRatioAtChance } from '../../biology/chance-of-winning.js';
import { type HarmOptions, isOfSolitaryKind, levelOf } from '../../rules/attack.js';
import { companionship } from '../../rules/companions.js';
import { LEVELS } from '../../rules/levels.js';
import { sameSort } from '../../rules/odds.js';
import { freeShelter, mayLackShelter } from '../../rules/refuge.js';
import { comesInto, isToldByCompany, spanOf } from '../../rules/rivalry.js';
import type { StockAnimal } from '../../stock/stock.js';
import { type OddsBound, bestOddsOf, worstOddsOf, type Contests, contestsOn, type Meeting, type Standing } from './contests.js';
import { INAPPLICABLE_RANK, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import { listsOf } from './lists.js';
import { placesToNeed } from './places.js';
import { type Attacker, type Ground, type Refuges, type Rooms, roomsOf, type Stand } from './refuges.js';

/** What one may do to the other on a day. */
export interface Look {
  readonly meeting: Meeting;
  /** By who is much smaller. */
  readonly ends: readonly [Ends, Ends, Ends];
  readonly refuge: Refuge;
  /** The same at the horizon, when both claim most. */
  readonly refugeAtEnd: Refuge;
  readonly isAtEnd: boolean;
  /** Where bounds do not tell these are worked out. */
  readonly needed: Int32Array;
  /** Litres of rock beyond which the target has room, and beyond which it comes to nothing, whatever the two are. */
  readonly roomFrom: number;
  readonly rockFor: number;
  /** Where room settles all, the target at the horizon. */
  readonly stand: Stand | undefined;
  /** No shelter is left to the target, or perhaps none. */
  readonly lacksShelter: boolean;
  readonly mayLackShelter: boolean;
}

export interface Refuge {
  readonly ground: Ground;
  readonly attacker: Attacker;
}

/** A standing, and how it may end, as weights by which the attacks of two are compared; below 0 where it cannot. */
export interface Ends {
  /** Harm that is certain: both are hurt, or the target has no refuge; killed in spite of one. */
  readonly harmed: number;
  readonly hunted: number;
  /** The same where it may be. */
  readonly mayHarm: number;
  readonly mayHunt: number;
  readonly most: number;
  /** Whether the target stands its ground for certain, or may. */
  readonly stands: boolean;
  readonly mayStand: boolean;
  /** A chase at most. */
  readonly isChase: boolean;
  readonly reach: number;
  readonly shift: number;
  readonly shiftAtLeast: number;
  readonly shiftAtMost: number;
}

interface Pair {
  readonly looks: readonly Look[];
  /** The gravest rank that they may come to. */
  readonly most: number;
}

/** Within two animals the graver goes first, failures before doubts; a weight is a place in this. */
const weightOf = (level: number, hasFailed: boolean): number => 2 * level + (hasFailed ? 1 : 0);
const RANKS: Int32Array = Int32Array.from(
  LEVELS.flatMap((level) => [rankOfVerdict({ outcome: 'cantTell', level }), rankOfVerdict({ outcome: 'failed', level })]),
);
/** The rank of what two come to at most. */
export const rankAt = (weight: number): number => (weight < 0 ? PASSED_RANK : (RANKS[weight] as number));

/** By rank the greatest weight up to which none comes to more. */
const WITHIN: Int32Array = Int32Array.from({ length: Math.max(...RANKS) + 1 }, (_, rank) => {
  const above = RANKS.findIndex((one) => one > rank);
  return (above < 0 ? RANKS.length : above) - 1;
});
export const weightWithin = (rank: number): number => WITHIN[rank] as number;

/** All that is laid out for a stock. */
export interface RivalryLayout {
  readonly contests: Contests;
  readonly refuges: Refuges;
  /** Logarithms of ratios from which a contest is even, and up to which. */
  readonly fromRatio: number;
  readonly toRatio: number;
  /** Looks pair after pair, from the gravest down. */
  readonly looks: readonly Look[];
  /** By pair the first of its looks, one more at the end; and the rank that it may come to. */
  readonly firstOf: Int32Array;
  readonly ceilings: Int32Array;
  /** The rank of what does not vary. */
  readonly least: number;
  /** Of all looks the rock beyond which they come to nothing, and the best odds of the aggressor. */
  readonly rockFor: Float64Array;
  readonly odds: OddsBound;
  /** Where room and these tell that the target neither stands its ground nor lacks a refuge, an attack comes to nothing. */
  readonly rooms: Rooms;
  readonly worstOdds: OddsBound;
  /** Of all looks the most that they may come to, as a weight. */
  readonly mosts: Int8Array;
}

/** Lays `rivalry` out for a stock: which two may harm each other at all, and how gravely. Undefined where something hangs on what kernels do not read. */
export function rivalryLayout({ columns, places, refuges }: Shared, options: HarmOptions): RivalryLayout | undefined {
  const { stock, isFixed } = columns;
  const contests = contestsOn(places, options);
  const { chases, kills } = options;
  const [fromRatio, toRatio] = [logRatioAtChance(options.evenFrom), logRatioAtChance(options.evenTo)];
  if (contests === undefined || Number.isNaN(fromRatio) || Number.isNaN(toRatio) || !isFixed(stock.tank.shelters)) return undefined;

  const endsOf = (standing: Standing, aggressor: StockAnimal, target: StockAnimal): Ends => {
    const { step, most, shift, shiftAtLeast, shiftAtMost } = standing;
    const solitary = isOfSolitaryKind(aggressor, target);
    const weightAt = (at: number, from: number, harm: 'oneSided' | 'hunted', hasFailed: boolean): number =>
      at < from ? -1 : weightOf(LEVELS.indexOf(levelOf(solitary, at, harm, options)), hasFailed);
    const harmed = weightAt(step, chases, 'oneSided', true);
    const mayHarm = weightAt(most, chases, 'oneSided', false);
    const hunted = weightAt(step, Math.max(chases, kills), 'hunted', true);
    const mayHunt = weightAt(most, Math.max(chases, kills), 'hunted', false);
    return {
      harmed,
      hunted,
      mayHarm,
      mayHunt,
      most: Math.max(harmed, mayHarm),
      stands: standing.answer >= options.standsGround,
      mayStand: standing.answerAtMost >= options.standsGround,
      isChase: most < options.bites,
      reach: standing.isKin ? options.kinReach : 1,
      shift,
      shiftAtLeast,
      shiftAtMost,
    };
  };
  /** The rock that one needs as a refuge is what the other leaves of it. */
  const refugeOn = (one: number, other: number, dayOf: (animal: number) => number): Refuge => ({
    ground: refuges.groundOf(other, dayOf, []),
    attacker: refuges.attackerOn(other, dayOf(one), one, []),
  });
  const lookOf = (one: number, other: number, day: number, from: number): Look | 'nothing' | undefined => {
    const [aggressor, target] = [stock.animals[one] as StockAnimal, stock.animals[other] as StockAnimal];
    const isNew = (late: StockAnimal, early: StockAnimal): boolean => day === from && comesInto(stock, late, early);
    const meeting = contests.meetingOf(one, other, day, isNew(target, aggressor), isNew(aggressor, target));
    if (meeting === undefined) return undefined;
    const [first, second, third] = meeting.standings.map((standing) => endsOf(standing, aggressor, target)) as [Ends, Ends, Ends];
    if (first.most < 0 && second.most < 0 && third.most < 0) return 'nothing';
    const shelter = freeShelter(stock, target, []);
    const lacksShelter = shelter !== undefined && shelter.free <= 0;
    const mayLack = mayLackShelter(stock, target, [], 1);
    const canBeEven = [first, second, third].some(({ mayStand }) => mayStand);
    const canBeHunted = [first, second, third].some(({ hunted, mayHunt }) => hunted >= 0 || mayHunt >= 0);
    const reach = meeting.standings.some(({ isKin }) => isKin) ? Math.max(1, options.kinReach) : 1;
    const roomFrom = refuges.rockFor(other, [], [one], reach);
    const roomSettles = !(canBeHunted || lacksShelter || mayLack);
    const refugeAtEnd = refugeOn(one, other, () => Math.max(stock.horizonDay, day));
    return {
      meeting,
      ends: [first, second, third],
      refuge: refugeOn(one, other, () => day),
      refugeAtEnd,
      isAtEnd: day >= stock.horizonDay,
      needed: placesToNeed(places, [meeting.one, meeting.other]),
      roomFrom,
      rockFor: roomSettles && !canBeEven ? roomFrom : Number.POSITIVE_INFINITY,
      stand: roomSettles ? { ...refugeAtEnd, reach } : undefined,
      lacksShelter,
      mayLackShelter: mayLack,
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
      // A graver doubt goes before a failure of two, a failure of others before any doubt.
      const possible = live.flatMap(({ ends }) =>
        ends.flatMap(({ harmed, hunted, mayHarm, mayHunt }) => [harmed, hunted, mayHarm, mayHunt]),
      );
      if (live.length > 0) pairs.push({ looks: live, most: Math.max(...possible.map(rankAt)) });
    }
  }
  pairs.sort((one, other) => other.most - one.most);
  const all = pairs.flatMap(({ looks }) => looks);
  const { from } = listsOf(pairs.map(({ looks }) => looks.map((_, at) => at)));
  return {
    contests,
    refuges,
    fromRatio,
    toRatio,
    looks: all,
    firstOf: from,
    ceilings: Int32Array.from(pairs, ({ most }) => most),
    least,
    odds: bestOddsOf(
      contests,
      all.map(({ meeting }) => meeting),
    ),
    rockFor: Float64Array.from(all, (look) => look.rockFor),
    worstOdds: worstOddsOf(
      contests,
      all.map(({ meeting }) => meeting),
      all.map(({ ends }) => Math.min(...ends.filter(({ mayStand }) => mayStand).map(({ shiftAtLeast }) => shiftAtLeast))),
    ),
    rooms: roomsOf(all.map(({ stand }) => stand)),
    mosts: Int8Array.from(all, ({ ends }) => Math.max(...ends.map(({ most }) => most))),
  };
}
