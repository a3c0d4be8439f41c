import { type Arrangement, arrangementIn, failsAnyhow, pickedSets } from './arrange.js';
import type { Ground } from './ground.js';
import type { Line, Pick } from './line.js';

/** How a set comes in: its lines in order of entry, and at which of its lengths each. */
export interface Entry {
  readonly line: Line;
  readonly length: number;
}

/** How an arrangement brings its picks in. */
export const entriesOf = ({ batches }: Arrangement): Entry[] =>
  batches.flatMap(({ batch, animals }) =>
    batch.picks.map(({ line }) => {
      const length = animals.find(({ id }) => id === line.id)?.lengthCm?.centre;
      return { line, length: length === undefined ? 0 : Math.max(0, line.lengthsCm.indexOf(length)) };
    }),
  );

/**
 * An arrangement with one pick more: at the length and place with the fewest findings that rule it out, while everything else keeps its order
 * and its length. The first that works is taken. What has kin among the others goes in with them.
 */
export function inserted(ground: Ground, entries: readonly Entry[], others: readonly Pick[], pick: Pick): Arrangement {
  const names = [...new Set(entries.map(({ line }) => line.batch))];
  const orders = names.includes(pick.line.batch)
    ? [names]
    : placesFor(pick, names.length, ground.asks === 'whether').map((at) => [...names.slice(0, at), pick.line.batch, ...names.slice(at)]);
  const isMany = names.length > MOST_PLACES;
  const lengths = pick.line.lengthsCm.length === 0 ? [0] : middleFirst(pick.line.lengthsCm.length);
  let best: Arrangement | undefined;
  for (const order of orders) {
    for (const own of lengths) {
      const all = new Map([...entries.map(({ line, length }): [string, number] => [line.id, length]), [pick.line.id, own]]);
      for (const set of pickedSets(ground, [...others, pick])) {
        const found = arrangementIn(set, order, all);
        if (found === undefined) continue;
        if (best === undefined || found.excluding.length < best.excluding.length) best = found;
        if (best.excluding.length === 0 || (failsAnyhow(ground, best) && (ground.asks === 'whether' || isMany))) return best;
        break;
      }
    }
    // No other place helps it.
    if (best !== undefined && failsAnyhow(ground, best)) break;
  }
  return best as Arrangement;
}

/** Most places that are tried, of few batches and of many. */
const MOST_PLACES = 6;
const PLACES_OF_MANY = 2;

/** Scavengers first, all others from the end, where the least is disturbed, and at the start. */
function placesFor({ line }: Pick, count: number, isAsked: boolean): number[] {
  const places = Array.from({ length: count + 1 }, (_, at) => count - at);
  if (line.batch === '') return places.reverse().slice(0, PLACES_OF_MANY);
  if (places.length <= MOST_PLACES) return places;
  // To tell what is in the way the end will do.
  return isAsked ? [...places.slice(0, PLACES_OF_MANY - 1), 0] : places.slice(0, 1);
}

function middleFirst(count: number): number[] {
  const middle = Math.floor((count - 1) / 2);
  return [middle, ...Array.from({ length: count }, (_, at) => at).filter((at) => at !== middle)];
}
