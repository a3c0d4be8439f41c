import type { Finding } from '@commensal/schema';
import { dayOf } from '../quantity/days.js';
import { maturity } from '../rules/maturity.js';
import { nitrogen } from '../rules/nitrogen/index.js';
import type { AnyRule } from '../rules/rule.js';
import type { StockAnimal } from '../stock/stock.js';
import type { Ground } from './ground.js';

interface Placed {
  readonly day: number;
  readonly animals: readonly StockAnimal[];
}

/**
 * Days of entry on which each batch waits as long as is said of it: for the tank to be old enough, or for the nitrifiers to follow
 * the batch before. Later batches keep their gap. Undefined where nothing is said to wait.
 */
export function delayed(ground: Ground, batches: readonly Placed[], findings: readonly Finding[]): number[] | undefined {
  const waits = new Map<number, number>();
  for (const finding of findings) {
    const until = ground.asks !== 'how-well' && finding.level !== 'error' ? undefined : waitIn(finding);
    if (until === undefined) continue;
    const at = batches.findIndex(({ animals }) => finding.subjects.some(({ id }) => animals.some((animal) => animal.id === id)));
    if (at >= 0) waits.set(at, Math.max(until, waits.get(at) ?? until));
  }
  const days: number[] = [];
  batches.forEach(({ day }, at) => {
    const before = days[at - 1];
    const gap = before === undefined ? 0 : day - (batches[at - 1] as Placed).day;
    // What was moved for one wait keeps the gap it had; what was already later than its gap asks stays where it is.
    const soonest = before === undefined ? day : Math.max(day, before + Math.min(gap, ground.gapDays));
    days.push(Math.max(soonest, waits.get(at) ?? soonest));
  });
  return days.some((day, at) => day > (batches[at] as Placed).day) ? days : undefined;
}

/** Whether a rule says of what it finds how long to wait. */
export const asksToWait = (rule: AnyRule): boolean => rule === maturity || rule === nitrogen;

/** The day that a finding asks to wait for. */
function waitIn({ rule, outcome, data }: Finding): number | undefined {
  if (outcome !== 'failed') return undefined;
  const date = rule === maturity.id ? data.firstDay?.date : rule === nitrogen.id ? data.wait?.date : undefined;
  return date === undefined ? undefined : dayOf(date);
}
