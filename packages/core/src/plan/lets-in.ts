import type { Change } from '@commensal/schema';
import type { Library } from '../stock/library.js';
import { groundAfter } from './changed-ground.js';
import { fittingIn } from './fits.js';
import { type Ground, groundWith } from './ground.js';
import type { Entry } from './insert.js';
import type { Pick } from './line.js';

/** A set that was chosen, and how it comes in. */
export interface ChosenSet {
  readonly picks: readonly Pick[];
  readonly entries: readonly Entry[];
}

/** The ground after some changes, and what a pick is called there; undefined where it is dropped. */
export interface Changed {
  readonly ground: Ground;
  readonly same: (pick: Pick) => Pick | undefined;
}

export function changedBy(ground: Ground, library: Library, changes: readonly Change[]): Changed {
  // Work is counted together.
  const changed = groundWith(groundAfter(ground, library, changes), { spent: ground.spent });
  // Ids of lines may differ afterwards; the wishes that stay keep their order.
  const dropped = new Set(changes.flatMap((change) => (change.kind === 'instead-of' ? change.species : [])));
  const staying = (ground.situation.wishes ?? []).flatMap((wish, index) => (dropped.has(wish.species) ? [] : [index]));
  return {
    ground: changed,
    same: ({ line, count }) => {
      const wish = changed.stock.wishes[staying.indexOf(ground.stock.wishes.indexOf(line.wish))];
      const own = wish === undefined ? undefined : changed.lines.find((other) => other.wish === wish);
      return own === undefined ? undefined : { line: own, count: Math.min(own.wish.most, Math.max(own.wish.least, count)) };
    },
  };
}

/** A set that was chosen as it is called on a changed ground; what is dropped is left out. */
export function chosenOn({ same }: Changed, { picks, entries }: ChosenSet): ChosenSet {
  return {
    picks: picks.flatMap((other) => same(other) ?? []),
    entries: entries.flatMap(({ line, length }): Entry[] => {
      const its = same({ line, count: line.wish.least })?.line;
      return its === undefined ? [] : [{ line: its, length: Math.min(length, Math.max(0, its.lengthsCm.length - 1)) }];
    }),
  };
}

/** Whether a wish comes in beside what was chosen once all of some changes are made. */
export function letsIn(ground: Ground, library: Library, chosen: ChosenSet, pick: Pick, changes: readonly Change[]): boolean {
  const changed = changedBy(ground, library, changes);
  const own = changed.same(pick);
  const { picks, entries } = chosenOn(changed, chosen);
  return own !== undefined && fittingIn(changed.ground, entries).fits(picks, own);
}
