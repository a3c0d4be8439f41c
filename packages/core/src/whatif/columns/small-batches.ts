import { yearsSince } from '../../rules/gape/lengths.js';
import type { Columns } from './columns.js';
import { type FedOn, type Grams, gramsAtLeast, gramsAtMost, MOST_EXPONENT } from './grams.js';
import { CLOSE } from './kernel.js';

/** A batch, and what is in before it: numbers of what is fed. */
export interface Batch {
  readonly added: Int32Array;
  readonly before: Int32Array;
  /** The same lines as before, as they were when they were measured: then they are no longer than on any day. */
  readonly atStart: Int32Array;
}

/** Batches that are small as long as lengths are not too far from those that were laid out. */
export interface SmallBatches {
  /** Whether lengths are that near. */
  readonly areSmall: () => boolean;
  /** Places of the batches that this does not tell of. */
  readonly others: readonly number[];
}

/**
 * The batches that one heavy animal in before outweighs by far. They stay small while it is not much shorter than it was laid out and they are not much longer, which two
 * comparisons of lengths tell. A batch is small where what is in before weighs `times` as much.
 */
export function smallBatches(
  columns: Columns,
  batches: readonly Batch[],
  fed: readonly FedOn[],
  grams: Grams,
  times: number,
): SmallBatches {
  const { animals } = columns.stock;
  const length = columns.ofAnimals('length').centre;
  const one = (number: number): FedOn => fed[number] as FedOn;
  const atOf = (number: number): number => animals.indexOf(one(number).animal);
  const most = new Map<number, number>();
  const least = new Map<number, number>();
  const isTold = ({ added, atStart }: Batch): boolean => {
    const [anchor] = [...atStart]
      .filter((number) => isByLength(one(number)))
      .sort((some, other) => gramsAtLeast(grams, other) - gramsAtLeast(grams, some));
    if (anchor === undefined || !added.every((number) => isByLength(one(number)))) return false;
    const over = gramsAtLeast(grams, anchor) / (times * added.reduce((sum, number) => sum + gramsAtMost(grams, number), 0));
    if (!(over > 1)) return false;
    // Where these are longer by a factor and that is shorter by it, the ratio of weights falls by no more than the factor to twice the greatest power.
    const factor = Math.exp(Math.log(over) / (2 * MOST_EXPONENT)) * (1 - CLOSE);
    for (const number of added) {
      const at = atOf(number);
      most.set(at, Math.min(most.get(at) ?? Number.POSITIVE_INFINITY, (length[at] as number) * factor));
    }
    const at = atOf(anchor);
    least.set(at, Math.max(least.get(at) ?? 0, (length[at] as number) / factor));
    return true;
  };
  const others = [...batches.keys()].filter((index) => !isTold(batches[index] as Batch));
  const [mostAt, mostCm] = [Int32Array.from(most.keys()), Float64Array.from(most.values())];
  const [leastAt, leastCm] = [Int32Array.from(least.keys()), Float64Array.from(least.values())];
  return {
    others,
    areSmall: () => {
      for (let index = 0; index < leastAt.length; index += 1)
        if (!((length[leastAt[index] as number] as number) >= (leastCm[index] as number))) return false;
      for (let index = 0; index < mostAt.length; index += 1)
        if (!((length[mostAt[index] as number] as number) <= (mostCm[index] as number))) return false;
      return true;
    },
  };
}

/** Whether what it weighs hangs on nothing that varies but the length it starts from. */
function isByLength({ animal, day }: FedOn): boolean {
  const own = animal.kind.record.size?.weight;
  const isAsMeasured = day === undefined || yearsSince(animal, day) === 0;
  return isAsMeasured && animal.lengthCm !== undefined && own !== undefined && own.lengthType !== 'SL';
}
