import type { Change, IfChanged, LeftOut } from '@commensal/schema';
import { isoOf } from '../quantity/days.js';
import type { Library } from '../stock/library.js';
import { lineId } from '../stock/line-id.js';
import { differenceBetween } from './alternatives.js';
import { groundAfter } from './changed-ground.js';
import { fieldOf } from './field.js';
import type { Ground } from './ground.js';
import type { Pick } from './line.js';
import { isOverHold } from './possible-changes.js';
import { selectBest, withAShareOf } from './select.js';
import { byWorth, worthOf } from './worth.js';

/** Most residents whose re-homing is tried: those that stand in the way of most wishes. */
const MOST_RESIDENTS = 4;

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
    const changed = groundAfter(ground, library, [change]);
    const field = fieldOf(changed);
    const { arrangement, proven } = selectBest(field, { mostWork: withAShareOf(mostWork, changed), ranked: false });
    if (arrangement === undefined) return [];
    const worth = worthOf(arrangement.picks);
    return byWorth(worth, own) < 0 ? [{ change, worth, ...differenceBetween(picks, arrangement.picks), proven }] : [];
  });
  return gains.sort((one, other) => byWorth(one.worth, other.worth));
}

function changesWorthTrying(ground: Ground, leftOut: readonly LeftOut[]): Change[] {
  const residents = new Set(ground.stock.animals.filter(({ role }) => role === 'resident').map(({ id }) => lineId(id)));
  const inTheWay = new Map<string, number>();
  for (const { because } of leftOut) {
    for (const id of new Set(because.flatMap(({ subjects }) => subjects.map((subject) => lineId(subject.id)))))
      if (residents.has(id)) inTheWay.set(id, (inTheWay.get(id) ?? 0) + 1);
  }
  const most = [...inTheWay].sort(([one, its], [other, others]) => others - its || (one < other ? -1 : 1)).slice(0, MOST_RESIDENTS);
  const isHeld = leftOut.some(({ because }) =>
    because.some((finding) => isOverHold(finding) && finding.subjects.some(({ id }) => residents.has(lineId(id)))),
  );
  return [
    ...most.map(([animal]): Change => ({ kind: 'without-resident', animal })),
    ...(isHeld ? [{ kind: 'rock-relaid' as const, date: isoOf(ground.startDay) }] : []),
  ];
}
