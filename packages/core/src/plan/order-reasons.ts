import type { OrderReason } from '@commensal/schema';
import { isoOf } from '../quantity/days.js';
import type { Arrangement } from './arrange.js';
import type { Ground } from './ground.js';

/** What keeps a batch from going in earlier, and what makes it one batch. */
export function orderReasons(ground: Ground, arrangement: Arrangement, position: number): OrderReason[] {
  const entry = arrangement.batches[position];
  if (entry === undefined) return [];
  const before = arrangement.batches[position - 1];
  const reasons: OrderReason[] = [];
  if (before === undefined) reasons.push(firstDayReason(ground));
  else reasons.push({ message: 'order.gap', data: { gap: { value: ground.gapDays, unit: 'd' }, dayBefore: { date: isoOf(before.day) } } });
  if (entry.batch.scavengers && before === undefined) reasons.push({ message: 'order.scavengersFirst', data: {} });
  else if (!entry.batch.scavengers && entry.animals.length > 1)
    reasons.push({ message: 'order.sameFamily', data: { kinGroup: { keys: [entry.animals[0]?.kind.kinGroup ?? ''] } } });
  if (entry.batch.pugnacious > 0 && !entry.batch.scavengers && followsPeaceful(arrangement, position)) {
    reasons.push({ message: 'order.pugnaciousLater', data: {} });
  }
  return reasons;
}

/** Whether there are peaceful animals in other batches, and all of them go in before. */
function followsPeaceful({ batches }: Arrangement, position: number): boolean {
  const peacefulAt = (at: number): boolean => (batches[at]?.batch.peaceful ?? 0) > 0;
  const others = batches.map((_, at) => at).filter((at) => at !== position && peacefulAt(at));
  return others.length > 0 && others.every((at) => at < position);
}

function firstDayReason(ground: Ground): OrderReason {
  const { stock, startDay } = ground;
  const date = { date: isoOf(startDay) };
  if (startDay === stock.day) return { message: 'order.fromToday', data: { day: date } };
  if (startDay === stock.tank.cycledDay) return { message: 'order.onceCycled', data: { day: date } };
  return { message: 'order.afterResidents', data: { day: date, gap: { value: ground.gapDays, unit: 'd' } } };
}
