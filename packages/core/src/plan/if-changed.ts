import type { Change, IfChanged, LeftOut } from '@commensal/schema';
import { applyChange } from '../changes/apply.js';
import { isoOf } from '../quantity/days.js';
import type { Library } from '../stock/library.js';
import { differenceBetween } from './alternatives.js';
import { fieldOf } from './field.js';
import { type Ground, groundOf } from './ground.js';
import type { Pick } from './line.js';
import { selectBest } from './select.js';
import { worthOf } from './worth.js';

/** Most residents whose re-homing is tried: those that stand in the way of most wishes. */
const MOST_RESIDENTS = 4;

/** Part of the work of the plan that each change may take. */
const SHARE_OF_WORK = 0.05;

/**
 * What single changes of the tank as it is would buy: another home for a resident that stands in the way of a wish, and the rock laid
 * anew on the first day of entry. Each is found by choosing again; only those that gain are told, the best first.
 */
export function gainsFrom(
  ground: Ground,
  library: Library,
  picks: readonly Pick[],
  leftOut: readonly LeftOut[],
  mostWork: number,
): IfChanged[] {
  const own = worthOf(picks);
  const gains = changesWorthTrying(ground, leftOut).flatMap((change): IfChanged[] => {
    const changed = groundOf(applyChange(ground.situation, change), library, ground.rules, 'whether');
    const field = fieldOf(changed);
    const { arrangement, proven } = selectBest(field, { mostWork: changed.spent.work + mostWork * SHARE_OF_WORK, ranked: false });
    if (arrangement === undefined) return [];
    const worth = worthOf(arrangement.picks);
    const isMore = worth.priority > own.priority || (worth.priority === own.priority && worth.animals > own.animals);
    return isMore ? [{ change, worth, ...differenceBetween(picks, arrangement.picks), proven }] : [];
  });
  return gains.sort((one, other) => other.worth.priority - one.worth.priority || other.worth.animals - one.worth.animals);
}

function changesWorthTrying(ground: Ground, leftOut: readonly LeftOut[]): Change[] {
  const residents = new Set(ground.stock.animals.filter(({ role }) => role === 'resident').map(({ id }) => id.split('#')[0] as string));
  const inTheWay = new Map<string, number>();
  for (const { because } of leftOut) {
    for (const id of new Set(because.flatMap(({ subjects }) => subjects.map((subject) => subject.id.split('#')[0] as string))))
      if (residents.has(id)) inTheWay.set(id, (inTheWay.get(id) ?? 0) + 1);
  }
  const most = [...inTheWay].sort(([one, its], [other, others]) => others - its || (one < other ? -1 : 1)).slice(0, MOST_RESIDENTS);
  const isHeld = leftOut.some(({ because }) =>
    because.some(({ rule, subjects }) => HELD.includes(rule) && subjects.some(({ id }) => residents.has(id.split('#')[0] as string))),
  );
  return [
    ...most.map(([animal]): Change => ({ kind: 'without-resident', animal })),
    ...(isHeld ? [{ kind: 'rock-relaid' as const, date: isoOf(ground.startDay) }] : []),
  ];
}

/** Rules on who holds what it has settled in. */
const HELD: readonly string[] = ['lockout', 'rivalry', 'dominance'];
