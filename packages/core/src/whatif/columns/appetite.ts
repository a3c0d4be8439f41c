import { crossedBy } from '../../biology/first-crossing.js';
import { DAYS_PER_YEAR } from '../../quantity/days.js';
import { type Aim, aimsAt } from '../../rules/appetite/aims.js';
import { appetite, type AppetiteMeasure, type Threat, verdictOn, weightOf } from '../../rules/appetite/appetite.js';
import { yearsSince } from '../../rules/gape/lengths.js';
import { LEVELS } from '../../rules/levels.js';
import { justUnder } from '../../rules/rounding.js';
import type { StockAnimal } from '../../stock/stock.js';
import { lengthAtLeast, lengthAtMost } from './bounds.js';
import { type Columns, isOne, lengthIn } from './columns.js';
import { CLOSE, type Kernel, LEFT, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';

/** An animal that goes for another up to some length: what does not vary of it. */
interface Hunt {
  /** Places among the animals. */
  readonly actor: number;
  readonly victim: number;
  /** From that day to the last. */
  readonly years: number;
  /** Years of growth behind the two on the first day, and on the last. */
  readonly actorYears: number;
  readonly actorYearsInAll: number;
  readonly victimYears: number;
  readonly victimYearsInAll: number;
  /** Whether it is known of both how far they grow. */
  readonly hasCurves: boolean;
  /** What the threats weigh that do not hang on lengths. */
  readonly settled: number;
  /** Those that do, the gravest first. */
  readonly reaches: readonly Reach[];
  /** The gravest rank that it can come to. */
  readonly most: number;
}

/** A threat to what is no longer than a share of the actor. */
interface Reach {
  /** How many times as long as the victim the actor must be, as the rule asks it. */
  readonly ratio: number;
  /** What it weighs where the victim comes within reach, and where it may. */
  readonly reached: number;
  readonly doubtful: number;
}

/** Ranks by what verdicts weigh: among threats of one pair a graver doubt goes before a failure, among pairs any failure before a doubt. */
const RANKS: Int32Array = (() => {
  const verdicts = (['failed', 'cantTell'] as const).flatMap((outcome) => LEVELS.map((level) => ({ outcome, level, message: '' })));
  const ranks = new Int32Array(Math.max(...verdicts.map(weightOf)) + 1).fill(PASSED_RANK);
  for (const verdict of verdicts) ranks[weightOf(verdict)] = rankOfVerdict(verdict);
  return ranks;
})();

/**
 * The kernel of `appetite`: who goes for whom, and what that would be, is laid out by the rule's own functions; which of them grow long enough is asked in each scenario.
 * Where it is told how long one grows, but not exactly, and it may come to be long enough though it does not at the centre, the rule is asked.
 */
export function appetiteKernel({ columns }: Shared, options: Readonly<Record<string, number>>): Kernel | undefined {
  const { stock, ofAnimals } = columns;
  const smallShare = options.smallShare as number;
  const isServed = ({ kind }: StockAnimal): boolean =>
    columns.isFixed(kind.record.conduct?.harms) && (kind.asymptoticCm === undefined || kind.ratePerYear !== undefined);
  if (!stock.animals.every(isServed)) return undefined;

  let floor = NOTHING_RANK;
  const hunts: Hunt[] = [];
  appetite.measure(stock, { smallShare }, (measure) => {
    const hunt = huntOf(columns, measure, smallShare);
    if (hunt !== undefined) hunts.push(hunt);
    floor = Math.max(floor, hunt === undefined ? rankOfVerdict(appetite.judge(measure, { smallShare })) : PASSED_RANK);
  });
  hunts.sort((one, other) => other.most - one.most);
  const [length, asymptote, rate] = [ofAnimals('length'), ofAnimals('asymptote'), ofAnimals('rate')];
  const isExact = (at: number): boolean => isOne(length, at) && isOne(asymptote, at) && isOne(rate, at);

  /** Whether bounds tell that the victim is within reach on the last day. */
  const isSurelyReached = ({ actor, victim, actorYearsInAll, victimYearsInAll }: Hunt, ratio: number): boolean =>
    lengthAtLeast(length.centre[actor] as number, asymptote.centre[actor] as number, rate.centre[actor] as number, actorYearsInAll) >=
    ratio *
      (1 + CLOSE) *
      lengthAtMost(length.centre[victim] as number, asymptote.centre[victim] as number, rate.centre[victim] as number, victimYearsInAll);
  /** Whether the actor at its longest on the last day is too short for the victim at its shortest on the first: then there is no doubt either. */
  const isNeverReached = ({ actor, victim, actorYearsInAll, victimYears }: Hunt, ratio: number): boolean =>
    lengthAtMost(length.high[actor] as number, asymptote.high[actor] as number, rate.high[actor] as number, actorYearsInAll) * (1 + CLOSE) <
    ratio * lengthAtLeast(length.low[victim] as number, asymptote.low[victim] as number, rate.low[victim] as number, victimYears);

  /** What a threat weighs; LEFT where lengths that are not exact leave a doubt. */
  const weightIn = (hunt: Hunt, { ratio, reached, doubtful }: Reach): number => {
    const { actor, victim, hasCurves } = hunt;
    if (hasCurves && isSurelyReached(hunt, ratio)) return reached;
    if (hasCurves && isNeverReached(hunt, ratio)) return 0;
    const actorCm = lengthIn(columns, actor, hunt.actorYears);
    const victimCm = lengthIn(columns, victim, hunt.victimYears);
    const crossed = crossedBy(
      actorCm,
      endOf(actorCm, asymptote.centre[actor] as number),
      curveOf(rate.centre[actor] as number),
      victimCm,
      endOf(victimCm, asymptote.centre[victim] as number),
      curveOf(rate.centre[victim] as number),
      ratio,
      hunt.years,
    );
    if (crossed === 0 || (hasCurves && crossed < Number.POSITIVE_INFINITY)) return reached;
    if (!hasCurves) return doubtful;
    return isExact(actor) && isExact(victim) ? 0 : LEFT;
  };
  const rankOf = (hunt: Hunt): number => {
    let weight = hunt.settled;
    let doubt = 0;
    for (let index = 0; index < hunt.reaches.length; index += 1) {
      const reach = hunt.reaches[index] as Reach;
      if (reach.reached <= weight) break;
      const found = weightIn(hunt, reach);
      if (found === LEFT) doubt = Math.max(doubt, reach.doubtful);
      else if (found > weight) weight = found;
    }
    return doubt > weight ? LEFT : (RANKS[weight] as number);
  };

  let gravest = 0;
  return () => {
    let rank = floor;
    let doubted = NOTHING_RANK;
    // What was gravest in the scenario before may well be so again.
    const first = gravest;
    for (let index = -1; index < hunts.length; index += 1) {
      const at = index < 0 ? first : index;
      const hunt = hunts[at];
      if (hunt === undefined || (index >= 0 && hunt.most <= rank)) break;
      if (index === first) continue;
      const found = rankOf(hunt);
      if (found === LEFT) doubted = Math.max(doubted, hunt.most);
      else if (found > rank) {
        rank = found;
        gravest = at;
      }
    }
    return doubted > rank ? LEFT : rank;
  };
}

/** The length that an animal never passes; without an asymptotic length it stays as it is. */
const endOf = (start: number, asymptotic: number): number => (Number.isNaN(asymptotic) ? start : Math.max(asymptotic, start));
const curveOf = (perYear: number): number => (Number.isNaN(perYear) ? 1 : perYear);

/** Undefined where nothing of a judgement hangs on lengths. */
function huntOf(columns: Columns, measure: AppetiteMeasure, smallShare: number): Hunt | undefined {
  const { actor, victim, fromDay, untilDay, threats } = measure;
  if (victim?.lengthCm === undefined || actor.lengthCm === undefined) return undefined;
  const aims = aimsAt(actor.kind, victim.kind, smallShare);
  const weights = threats.filter(({ upToShare }) => upToShare === undefined).map((threat) => weightOf(verdictOn(threat, measure)));
  const settled = Math.max(0, ...weights);
  const reaches = aims.flatMap((aim) => reachOf(aim, measure)).sort((one, other) => other.reached - one.reached);
  if (reaches.length === 0) return undefined;
  const [actorAt, victimAt] = [columns.stock.animals.indexOf(actor), columns.stock.animals.indexOf(victim)];
  const possible = [settled, ...reaches.flatMap(({ reached, doubtful }) => [reached, doubtful])].filter((weight) => weight >= settled);
  const years = (untilDay - fromDay) / DAYS_PER_YEAR;
  return {
    actor: actorAt,
    victim: victimAt,
    years,
    actorYears: yearsSince(actor, fromDay),
    actorYearsInAll: yearsSince(actor, fromDay) + years,
    victimYears: yearsSince(victim, fromDay),
    victimYearsInAll: yearsSince(victim, fromDay) + years,
    hasCurves: actor.kind.asymptoticCm !== undefined && victim.kind.asymptoticCm !== undefined,
    settled,
    reaches,
    most: Math.max(...possible.map((weight) => RANKS[weight] as number)),
  };
}

function reachOf(aim: Aim, measure: AppetiteMeasure): Reach[] {
  if (aim.upToShare === undefined) return [];
  const weightFrom = (firstDay: number): number => {
    const threat: Threat = { ...aim, firstDay, possibleDay: measure.fromDay };
    return weightOf(verdictOn(threat, measure));
  };
  return [{ ratio: justUnder(1 / aim.upToShare), reached: weightFrom(measure.fromDay), doubtful: weightFrom(Number.POSITIVE_INFINITY) }];
}
