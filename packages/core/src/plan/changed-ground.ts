import type { Change, Situation } from '@commensal/schema';
import { applyChange } from '../changes/apply.js';
import type { Library } from '../stock/library.js';
import type { StockKind } from '../stock/stock.js';
import { type Ground, groundOf, groundWith } from './ground.js';

/**
 * The ground after some changes, on which no more is asked than whether a set works. What was found before of two animals meeting is
 * kept where the changes cannot touch it.
 */
export function groundAfter(ground: Ground, library: Library, changes: readonly Change[]): Ground {
  const situation = changes.reduce(applyChange, ground.situation);
  const fresh = groundOf(situation, library, ground.rules, 'whether', kindsOn(ground));
  if (surroundings(situation) !== surroundings(ground.situation) || !isPartOf(fresh, ground)) return fresh;
  const { meetings, perhaps } = ground;
  if (!hasSamePlaces(fresh, ground)) return groundWith(fresh, { meetings, perhaps });
  return groundWith(fresh, { meetings, perhaps, clashes: ground.clashes, latest: ground.latest, roles: ground.roles });
}

const kindsOn = ({ stock }: Ground): Map<string, StockKind> =>
  new Map([...stock.animals, ...stock.wishes].map(({ kind }) => [kind.id, kind]));

/** What two animals that meet depend on besides themselves. Who keeps them is no part of it. */
const surroundings = ({ date, tank, events, settings }: Situation): string => JSON.stringify([date, tank, events, settings]);

/** Whether every animal and every wish has its name on the other ground as well, and is the same kind of animal there. */
function isPartOf(one: Ground, other: Ground): boolean {
  const names = new Map(named(other));
  return named(one).every(([id, kind]) => names.get(id) === kind);
}

const named = ({ stock, lines }: Ground): [string, StockKind][] => [
  ...stock.animals.map(({ id, kind }): [string, StockKind] => [id, kind]),
  ...lines.map(({ id, wish }): [string, StockKind] => [id, wish.kind]),
];

/** Whether places in the order of entry, by number, mean the same on both, and the same residents are met there. */
const hasSamePlaces = (one: Ground, other: Ground): boolean => placesOn(one) === placesOn(other);

const placesOn = ({ stock, lines, startDay, gapDays, watchedFrom, mostBatches, mostOfOne }: Ground): string =>
  JSON.stringify([
    startDay,
    gapDays,
    watchedFrom,
    mostBatches,
    mostOfOne,
    lines.map(({ id, lengthsCm, watch }) => [id, lengthsCm, watch]),
    stock.animals.map(({ id, count, sex, entryDay, leaveDay, lengthDay, lengthCm }) => [
      id,
      count,
      sex,
      entryDay,
      leaveDay,
      lengthDay,
      lengthCm,
    ]),
  ]);
