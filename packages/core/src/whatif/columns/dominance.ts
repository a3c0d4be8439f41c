import { logRatioAtChance } from '../../biology/chance-of-winning.js';
import { companionship } from '../../rules/companions.js';
import type { DominanceOptions } from '../../rules/dominance.js';
import { completeDay, gapsOf } from '../../rules/hierarchy.js';
import { sameSort } from '../../rules/odds.js';
import { isThere } from '../../rules/presence.js';
import { freeShelter, mayLackShelter } from '../../rules/refuge.js';
import type { StockAnimal } from '../../stock/stock.js';
import {
  type OddsBound,
  oddsIn,
  bestOddsOf,
  type Contests,
  contestsOn,
  logRatioIn,
  type Meeting,
  type Standing,
  standingAt,
} from './contests.js';
import { type Contest, type Hierarchy, hierarchyOf, alwaysContest, mayContest, rulerIn, UNSURE } from './hierarchy.js';
import { CLOSE, INAPPLICABLE_RANK, type Kernel, LEFT, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import {
  attack,
  type Attacker,
  goTo,
  type Ground,
  isRoomy,
  rockAtLeast,
  type Refuges,
  type Rooms,
  roomsOf,
  NO_ROOM,
  roomAtWorstIn,
  roomIn,
  type Stand,
  TOO_CLOSE,
} from './refuges.js';
import { need, needEnds, placesToNeed } from './places.js';

/** The tank on a day that is looked at. */
interface Look {
  readonly hierarchy: Hierarchy;
  readonly attacks: readonly Attack[];
  /** The most that any attack may be worth. */
  readonly most: number;
  /** Litres of rock beyond which the others have room whatever they are, the most first. */
  readonly rockFor: Float64Array;
  readonly rooms: Rooms;
  /** The best odds of the aggressor. */
  readonly odds: OddsBound;
}

/** What one would do to another if it came to rule. */
interface Attack {
  /** A place among those that are there. */
  readonly aggressor: number;
  readonly meeting: Meeting;
  readonly ground: Ground;
  readonly attacker: Attacker;
  /** Places that are worked out to tell the odds, and to tell what is left of the rock. */
  readonly neededForOdds: Int32Array;
  readonly neededForRock: Int32Array;
  /** The same at the horizon, with the attacker reaching as far as it may; undefined where room settles nothing. */
  readonly atEnd: Stand | undefined;
  /** Litres of rock beyond which the other has room whatever they are. */
  readonly rockFor: number;
  /** The most that it may be worth. */
  readonly most: number;
  readonly lacksShelter: boolean;
  readonly mayLackShelter: boolean;
  /** Its place or that of another is not known, so that it may rule even where another is likelier to. */
  readonly mayRule: boolean;
}

/** The graver goes first, failures before doubts; a weight is a place in this. */
const RANKS: Int32Array = Int32Array.from([
  rankOfVerdict({ outcome: 'cantTell', level: 'warning' }),
  rankOfVerdict({ outcome: 'failed', level: 'warning' }),
  rankOfVerdict({ outcome: 'cantTell', level: 'error' }),
  rankOfVerdict({ outcome: 'failed', level: 'error' }),
]);
const weightOf = (isError: boolean, hasFailed: boolean): number => (isError ? 2 : 0) + (hasFailed ? 1 : 0);
const NOT_ASKED = -3;

/** All that is laid out for a stock. */
interface Layout {
  readonly contests: Contests;
  readonly refuges: Refuges;
  readonly options: DominanceOptions;
  /** Logarithm of the ratio from which a contest is one-sided. */
  readonly oneSided: number;
  readonly looks: readonly Look[];
  /** The rank where nobody is harmed. */
  readonly least: number;
}

/** The rule `dominance` in columns. Who rules is worked out only where one is there that would do harm if it ruled. */
export function dominanceOn(shared: Shared, options: DominanceOptions): Kernel | undefined {
  if (shared.columns.stock.animals.length < 2) return () => NOTHING_RANK;
  const layout = layOut(shared, options);
  return layout === undefined ? undefined : () => worstOf(layout);
}

function layOut({ columns, places, refuges }: Shared, options: DominanceOptions): Layout | undefined {
  const { stock, isFixed } = columns;
  const contests = contestsOn(places, options);
  const { chases } = options;
  const oneSided = logRatioAtChance(Math.max(options.evenFrom, options.oneSided));
  if (contests === undefined || Number.isNaN(oneSided) || !isFixed(stock.tank.shelters)) return undefined;
  const animalAt = (at: number): StockAnimal => stock.animals[at] as StockAnimal;

  const contested: Contest[] = [];
  const lookOn = (day: number): Look | undefined => {
    const present = stock.animals.flatMap((animal, at) => (isThere(stock, animal, day) ? [at] : []));
    const found: Contest[] = [];
    const attacks: Attack[] = [];
    const isRanked = (at: number): boolean => gapsOf(animalAt(at), day).length === 0;
    for (const [index, at] of present.entries()) {
      if (!isFixed(animalAt(at).kind.record.conduct?.company)) return undefined;
      const sort = present.filter((other) => sameSort(animalAt(at), animalAt(other)));
      const mayRule = sort.some((other) => !isRanked(other));
      for (const other of sort) {
        if (at === other) continue;
        const meeting = contests.meetingOf(at, other, day, false, false);
        if (meeting === undefined) return undefined;
        if (at < other && isRanked(at) && isRanked(other)) {
          const contest = { one: index, other: present.indexOf(other), meeting };
          if (mayContest(contest)) found.push(contest);
        }
        if (!meeting.standings.some(({ most }) => most >= chases)) continue;
        if (companionship(stock, animalAt(at), animalAt(other)) !== 'strangers') continue;
        const others = present.filter((one) => one !== other);
        const neither = others.filter((one) => one !== at).map(animalAt);
        const shelter = freeShelter(stock, animalAt(other), neither);
        const end = Math.max(day, stock.horizonDay);
        const reach = meeting.standings.some(({ isKin }) => isKin) ? Math.max(1, options.kinReach) : 1;
        const lacksShelter = shelter !== undefined && shelter.free <= 0;
        const mayLack = mayLackShelter(stock, animalAt(other), neither, 1);
        const ground = refuges.groundOf(other, () => day, others);
        const attacker = refuges.attackerOn(other, day, at, others);
        attacks.push({
          aggressor: index,
          meeting,
          ground,
          attacker,
          neededForOdds: placesToNeed(places, [meeting.one, meeting.other]),
          neededForRock: placesToNeed(
            places,
            [ground.own, attacker.place, ...ground.others].filter((place) => place >= 0),
          ),
          most: weightOf(
            meeting.standings.some(({ most }) => most >= options.kills),
            true,
          ),
          atEnd:
            lacksShelter || mayLack
              ? undefined
              : { ground: refuges.groundOf(other, () => end, others), attacker: refuges.attackerOn(other, end, at, others), reach },
          rockFor: lacksShelter || mayLack ? Number.POSITIVE_INFINITY : refuges.rockFor(other, others, [at], reach),
          mayRule,
          lacksShelter,
          mayLackShelter: mayLack,
        });
      }
    }
    contested.push(...found);
    attacks.sort((one, other) => other.rockFor - one.rockFor || 0);
    const there = present.map((at) => places.placeOf(at, day));
    return {
      hierarchy: hierarchyOf(
        Int32Array.from(there),
        Float64Array.from(present, (at) => animalAt(at).count),
        found,
      ),
      attacks,
      most: Math.max(-1, ...attacks.map(({ most }) => most)),
      odds: bestOddsOf(
        contests,
        attacks.map(({ meeting }) => meeting),
      ),
      rockFor: Float64Array.from(attacks, (one) => one.rockFor),
      rooms: roomsOf(attacks.map(({ atEnd }) => atEnd)),
    };
  };

  const complete = completeDay(stock);
  const days = complete < stock.horizonDay ? [complete, stock.horizonDay] : [complete];
  const looked = days.map(lookOn);
  if (looked.includes(undefined)) return undefined;
  const looks = looked as Look[];
  // Whether anyone rules may hang on who is much smaller: so rare that it is left to the rule.
  if (contested.length > 0 && !contested.some(alwaysContest)) return undefined;
  const least = contested.length > 0 ? PASSED_RANK : INAPPLICABLE_RANK;
  return { contests, refuges, options, oneSided, looks, least };
}

function worstOf(layout: Layout): number {
  const { looks } = layout;
  let weight = -1;
  // The last look is mostly the horizon, which much is known of already.
  for (let index = looks.length - 1; index >= 0; index -= 1) {
    const worst = worstIn(layout, looks[index] as Look, weight);
    if (worst === UNSURE) return LEFT;
    if (worst > weight) weight = worst;
  }
  return weight < 0 ? layout.least : (RANKS[weight] as number);
}

/** The gravest of what the ruler would do on a day, failures before doubts, where that may be above a weight. */
function worstIn(layout: Layout, { hierarchy, attacks, rockFor, rooms, odds, most }: Look, above: number): number {
  if (most <= above) return -1;
  const { contests, oneSided, refuges } = layout;
  const { places } = contests;
  const rockL = rockAtLeast(refuges);
  if (attacks.length === 0 || rockL > (rockFor[0] as number)) return -1;
  needEnds(places);
  // Who rules is worked out only once one would do harm if it did.
  let ruler = NOT_ASKED;
  let failure = -1;
  let doubt = -1;
  for (let index = 0; index < attacks.length && !(rockL > (rockFor[index] as number)); index += 1) {
    if (oddsIn(places, odds, index) < oneSided - CLOSE) continue;
    if (isRoomy(refuges, rooms, index)) continue;
    const one = attacks[index] as Attack;
    if (ruler !== NOT_ASKED && one.aggressor !== ruler && !one.mayRule) continue;
    let weight = weightIn(layout, one, true);
    if (weight === -1) continue;
    if (ruler === NOT_ASKED) ruler = rulerIn(contests, hierarchy);
    if (ruler === UNSURE) return UNSURE;
    if (one.aggressor !== ruler) {
      if (!one.mayRule) continue;
      weight = weightIn(layout, one, false);
    }
    if (weight === UNSURE) return UNSURE;
    if ((weight & 1) === 1) failure = Math.max(failure, weight);
    else doubt = Math.max(doubt, weight);
  }
  return failure >= 0 ? failure : doubt;
}

/** What an attack by the ruler, or by one that may rule, comes to, as a weight; -1 where it harms nobody, UNSURE where it is close. */
function weightIn({ contests, refuges, options, oneSided }: Layout, look: Attack, rules: boolean): number {
  const { meeting, ground } = look;
  const { places } = refuges;
  need(places, look.neededForOdds);
  const logRatio = logRatioIn(contests, meeting);
  const at = standingAt(contests, meeting, logRatio);
  if (at === LEFT) return UNSURE;
  const { step, most, isKin, shift, shiftAtMost } = meeting.standings[at] as Standing;
  if (most < options.chases) return -1;
  const odds = logRatio + shift;
  const oddsAtMost = logRatio + shiftAtMost;
  if (Math.abs(odds - oneSided) < CLOSE || Math.abs(oddsAtMost - oneSided) < CLOSE) return UNSURE;
  if (oddsAtMost < oneSided) return -1;
  need(places, look.neededForRock);
  goTo(refuges, ground);
  attack(refuges, look.attacker, isKin ? options.kinReach : 1);
  const room = roomIn(refuges);
  if (room === TOO_CLOSE) return UNSURE;
  const lacks = look.lacksShelter || room === NO_ROOM;
  // Odds that are not known are no number, and compare as neither.
  if (rules && lacks && step >= options.chases && odds > oneSided) return weightOf(most >= options.kills, true);
  const doubt = weightOf(most >= options.kills, false);
  if (look.lacksShelter || look.mayLackShelter) return doubt;
  const atWorst = most >= options.bites || !refuges.isKnown ? roomAtWorstIn(refuges) : room;
  if (atWorst === TOO_CLOSE) return UNSURE;
  return atWorst === NO_ROOM ? doubt : -1;
}
