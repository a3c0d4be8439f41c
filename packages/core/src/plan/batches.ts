import { isPugnacious } from '../rules/conduct.js';
import type { StockKind } from '../stock/stock.js';
import type { Ground } from './ground.js';
import type { Pick, Watch } from './line.js';

/** What goes in on one day. */
export interface Batch {
  readonly picks: readonly Pick[];
  readonly scavengers: boolean;
  readonly pugnacious: number;
  readonly peaceful: number;
  /** Settles better before others, or takes over the tank and goes in at the end. */
  readonly early: boolean;
  readonly last: boolean;
  /** First day on which the tank is old enough for all of it. */
  readonly readyDay: number;
}

/** All scavengers on one day, and every kin group on one day of its own (common practice). */
export function batchesOf(ground: Ground, picks: readonly Pick[]): Batch[] {
  const groups = new Map<string, Pick[]>();
  for (const pick of picks) {
    const name = pick.line.batch;
    const group = groups.get(name);
    if (group === undefined) groups.set(name, [pick]);
    else group.push(pick);
  }
  return [...groups.entries()]
    .map(([name, group]) => batchOf(ground, group, name === ''))
    .sort((one, other) => rank(one) - rank(other) || (firstId(one) < firstId(other) ? -1 : 1));
}

/** What goes in together shares a name: that of the kin group, none for scavengers. */
export const batchName = (kind: StockKind): string => (kind.record.introduction?.value === 'scavenger' ? '' : kind.kinGroup);

function batchOf(ground: Ground, picks: readonly Pick[], scavengers: boolean): Batch {
  const fierce = picks.filter(
    (pick) => isPugnacious(pick.line.wish.kind, ground.pugnaciousToOthers, ground.pugnaciousToNewcomers) === true,
  );
  const role = (name: string): boolean => picks.some((pick) => pick.line.wish.kind.record.introduction?.value === name);
  return {
    picks: [...picks].sort((one, other) => (one.line.id < other.line.id ? -1 : 1)),
    scavengers,
    pugnacious: fierce.length,
    peaceful: scavengers ? 0 : picks.length - fierce.length,
    early: role('early'),
    last: role('last'),
    readyDay: Math.max(ground.startDay, ...picks.map(({ line }) => line.readyDay)),
  };
}

/** How its fishes are watched before they go in; undefined where there is nothing to watch. */
export const watchOf = ({ picks }: Batch): Watch | undefined => picks.find(({ line }) => line.watch !== undefined)?.line.watch;

/** A sensible order to try first. */
const rank = (batch: Batch): number => (batch.scavengers ? 0 : batch.pugnacious > 0 ? 4 : batch.last ? 3 : batch.early ? 1 : 2);

const firstId = (batch: Batch): string => batch.picks[0]?.line.id ?? '';

/**
 * What it costs to put one batch in before another: most for a scavenger that has to wait, then for every peaceful animal
 * that meets a pugnacious one already settled, then for what waits for the tank to grow older and keeps others waiting, then for
 * the wishes of single species to go in early or last.
 */
export function costBefore(first: Batch, second: Batch): number {
  return (
    (second.scavengers && !first.scavengers ? 1000 : 0) +
    first.pugnacious * second.peaceful * 20 +
    (first.last && !second.last && !second.scavengers ? 2 : 0) +
    (second.early && !first.early && !first.scavengers ? 1 : 0) +
    (first.readyDay > second.readyDay && !second.scavengers ? 5 : 0)
  );
}
