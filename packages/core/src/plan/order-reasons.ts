import type { Finding, OrderReason } from '@commensal/schema';
import { isoOf } from '../quantity/days.js';
import type { StockAnimal } from '../stock/stock.js';
import type { Arrangement } from './arrange.js';
import { costBefore, watchOf } from './batches.js';
import { mayClash, mayClashWithResidents } from './clashes.js';
import { excludes, findingsWith, type Ground, lastDay, mayFail } from './ground.js';
import type { LatestDay } from './latest-day.js';
import { movedTo, type Pick } from './line.js';

type Entry = Arrangement['batches'][number];

/** What keeps a batch from going in earlier and from waiting, and what makes it one batch. */
export function orderReasons(ground: Ground, arrangement: Arrangement, position: number, latest: LatestDay | undefined): OrderReason[] {
  const entry = arrangement.batches[position];
  if (entry === undefined) return [];
  const before = arrangement.batches[position - 1];
  const reasons: OrderReason[] = [before === undefined ? firstDayReason(ground, entry) : gapReason(ground, entry, before)];
  if (entry.batch.scavengers && before === undefined) reasons.push({ message: 'order.scavengersFirst', data: {} });
  else if (!entry.batch.scavengers && entry.animals.length > 1)
    reasons.push({ message: 'order.sameFamily', data: { kinGroup: { keys: [entry.animals[0]?.kind.kinGroup ?? ''] } } });
  if (entry.batch.pugnacious > 0 && !entry.batch.scavengers && followsPeaceful(arrangement, position)) {
    reasons.push({ message: 'order.pugnaciousLater', data: {} });
  }
  if (before !== undefined) reasons.push(...changingPlaces(ground, arrangement, position));
  if (latest !== undefined) {
    const { day, prey, predator } = latest;
    const swallower = predator.role === 'resident' ? { animal: predator.id } : { species: predator.kind.id };
    reasons.push({ message: 'order.latest', data: { day: { date: isoOf(day) }, prey: { species: prey.kind.id }, predator: swallower } });
  }
  return reasons;
}

/** Whether there are peaceful animals in other batches, and all of them go in before. */
function followsPeaceful({ batches }: Arrangement, position: number): boolean {
  const peacefulAt = (at: number): boolean => (batches[at]?.batch.peaceful ?? 0) > 0;
  const others = batches.map((_, at) => at).filter((at) => at !== position && peacefulAt(at));
  return others.length > 0 && others.every((at) => at < position);
}

function firstDayReason(ground: Ground, { day, batch }: Entry): OrderReason {
  const { stock, startDay } = ground;
  const date = { date: isoOf(day) };
  if (day > startDay) {
    const watch = watchOf(batch);
    if (watch !== undefined && batch.readyDay < day)
      return { message: 'order.watchedFirst', data: { day: date, watch: { value: watch.days, unit: 'd' } } };
    return { message: day === batch.readyDay ? 'order.oldEnough' : 'order.betterLater', data: { day: date } };
  }
  if (day === stock.day) return { message: 'order.fromToday', data: { day: date } };
  if (day === stock.settings.notBefore) return { message: 'order.notBefore', data: { day: date } };
  if (day === stock.tank.cycledDay) return { message: 'order.onceCycled', data: { day: date } };
  return { message: 'order.afterResidents', data: { day: date, gap: { value: ground.gapDays, unit: 'd' } } };
}

/** What sets the gap to the batch before: the customary month, the holding tank, or what the tank needs of time. */
function gapReason(ground: Ground, { day, batch }: Entry, before: Entry): OrderReason {
  const gap = { value: day - before.day, unit: 'd' };
  const data = { gap, dayBefore: { date: isoOf(before.day) } };
  if (gap.value > ground.gapDays) {
    if (day === batch.readyDay) return { message: 'order.oldEnough', data: { day: { date: isoOf(day) } } };
    const watch = watchOf(batch);
    if (watch !== undefined && watchOf(before.batch) === undefined && day <= ground.stock.day + watch.days + ground.gapDays)
      return { message: 'order.watchedFirst', data: { day: { date: isoOf(day) }, watch: { value: watch.days, unit: 'd' } } };
    return { message: 'order.nitrifiers', data };
  }
  return gap.value > ground.customaryGapDays ? { message: 'order.oneLot', data } : { message: 'order.gap', data };
}

/** What would come of it if the batch changed places with the one before. */
function changingPlaces(ground: Ground, { batches }: Arrangement, position: number): OrderReason[] {
  const [before, entry] = [batches[position - 1] as Entry, batches[position] as Entry];
  const others = batches.filter((batch) => batch !== before && batch !== entry).flatMap(({ animals }) => animals);
  const moved = [
    ...entry.animals.map((animal) => movedTo(animal, before.day)),
    ...before.animals.map((animal) => movedTo(animal, entry.day)),
  ];
  const newcomers = [...others, ...moved];
  const ids = new Set(newcomers.map(({ id }) => id));
  const isMet = mayMeetBadly(ground, batches, [...entry.batch.picks, ...before.batch.picks]);
  const asked = ground.sets.excluding.filter(
    (one) => (isMet || !ground.sets.meeting.includes(one)) && mayFail(ground, one.rule, newcomers),
  );
  const found = findingsWith(ground, newcomers, asked).find((finding) => excludes(ground, finding, ids));
  if (found !== undefined) return mustFollow(found, entry.animals, before.animals);
  return costBefore(entry.batch, before.batch) === costBefore(before.batch, entry.batch)
    ? [{ message: 'order.interchangeable', data: {} }]
    : [];
}

/**
 * Whether some that are moved may exclude what they meet, or be excluded by it, wherever they are put. Most meet nothing of the kind, and rules on
 * meetings need not be asked of the whole set anew. It is known for the days that planning thinks of.
 */
function mayMeetBadly(ground: Ground, batches: readonly Entry[], moved: readonly Pick[]): boolean {
  const picks = batches.flatMap(({ batch }) => batch.picks);
  return (
    batches.some(({ day }) => day > lastDay(ground)) ||
    moved.some((pick) => mayClashWithResidents(ground, pick) || picks.some((other) => other !== pick && mayClash(ground, pick, other)))
  );
}

/** What a rule says in a word. */
const WORDS: Readonly<Record<string, string>> = {
  gape: 'swallows',
  appetite: 'tears',
  rivalry: 'fights',
  lockout: 'locks-out',
  dominance: 'rules',
  nitrogen: 'ammonia',
};

function mustFollow({ rule, subjects }: Finding, animals: readonly StockAnimal[], others: readonly StockAnimal[]): OrderReason[] {
  const among = (some: readonly StockAnimal[]): StockAnimal | undefined =>
    some.find((animal) => subjects.some(({ id }) => id === animal.id));
  const [own, other] = [among(animals) ?? animals[0], among(others) ?? others[0]];
  if (own === undefined || other === undefined) return [];
  return [
    {
      message: 'order.mustFollow',
      data: { own: { species: own.kind.id }, other: { species: other.kind.id }, reason: { keys: [WORDS[rule] ?? 'other'] } },
    },
  ];
}
