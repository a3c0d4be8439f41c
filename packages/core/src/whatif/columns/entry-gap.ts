import { judgeGap, measureGaps } from '../../rules/entry-gap/gap.js';
import { inBefore, isLarge, judgeSize, LARGE, measureSizes } from '../../rules/entry-gap/size.js';
import { isFed } from '../../rules/feed.js';
import type { StockAnimal } from '../../stock/stock.js';
import { type FedOn, type Grams, gramsAtLeast, gramsAtMost, gramsOf, gramsOn } from './grams.js';
import { CLOSE, type Kernel, LEFT, NOTHING_RANK, PASSED_RANK, rankOfVerdict } from './kernel.js';
import type { Shared } from './kernels.js';
import { type Batch, smallBatches } from './small-batches.js';

const LARGE_RANK = rankOfVerdict(LARGE);

/**
 * The kernel of `entry-gap`: days between batches do not vary, and a batch is weighed against what is in before. Most are settled by bounds, many by those of the one
 * heaviest animal that was there; what no bound settles is worked out as the rule does. It reaches one failure alone, so that one large batch settles the rest.
 */
export function entryGapKernel({ columns }: Shared, options: Readonly<Record<string, number>>): Kernel | undefined {
  const { stock } = columns;
  const { gapDays, feedShare, largeShare } = options as Readonly<Record<'gapDays' | 'feedShare' | 'largeShare', number>>;
  // Within these more in a batch never makes it smaller, and more before it never larger.
  if (!(largeShare > 0 && largeShare < 0.99)) return undefined;

  let floor = NOTHING_RANK;
  measureGaps(stock, (measure) => {
    floor = Math.max(floor, rankOfVerdict(judgeGap(measure, { gapDays })));
  });
  const fed: FedOn[] = [];
  const numberOf = (animal: StockAnimal, day: number | undefined): number => {
    const there = fed.findIndex((one) => one.animal === animal && one.day === day);
    return there < 0 ? fed.push({ animal, day }) - 1 : there;
  };
  const numbersOf = (lines: readonly StockAnimal[], day: number | undefined): Int32Array =>
    Int32Array.from(lines.filter(isFed), (animal) => numberOf(animal, day));
  const batches: Batch[] = [];
  measureSizes(stock, { feedShare }, (measure) => {
    const { batch, day, feed } = measure;
    const isUnknown = feed.unknown.length > 0;
    floor = Math.max(floor, isUnknown ? rankOfVerdict(judgeSize(measure, { largeShare })) : PASSED_RANK);
    if (isUnknown) return;
    const before = inBefore(stock, batch, day);
    batches.push({ added: numbersOf(batch, day), before: numbersOf(before, day), atStart: numbersOf(before, undefined) });
  });
  if (floor >= LARGE_RANK) return () => floor;
  const grams = gramsOf(columns, fed, feedShare);
  if (grams === undefined) return undefined;
  /** What is left of a share over the share, and a little more: what is in before must weigh so many times as much as the batch. */
  const times = ((1 - largeShare) / largeShare) * (1 + CLOSE);
  const layout: Layout = {
    batches,
    grams,
    largeShare,
    times,
    heaviest: Int32Array.from(batches, ({ atStart }) => atStart[0] as number),
    asked: new Float64Array(2),
  };
  const { areSmall, others } = smallBatches(columns, batches, fed, grams, times);
  const all = [...batches.keys()];

  let large: Batch | undefined;
  return () => {
    layout.asked[0] = -1;
    // What was large in the scenario before may well be so again.
    if (large !== undefined && isSurelyLarge(layout, large)) return LARGE_RANK;
    large = undefined;
    const open = areSmall() ? others : all;
    for (let index = 0; index < open.length; index += 1) {
      const at = open[index] as number;
      if (isSurelySmall(layout, at)) continue;
      const batch = batches[at] as Batch;
      if (!isSurelyLarge(layout, batch)) {
        const beforeG = sumOf(grams, batch.before);
        if (beforeG === 0) return LEFT;
        if (!isLarge(sumOf(grams, batch.added), beforeG, largeShare)) continue;
      }
      large = batch;
      return LARGE_RANK;
    }
    return floor;
  };
}

/** All that is laid out for a stock. */
interface Layout {
  readonly batches: readonly Batch[];
  readonly grams: Grams;
  readonly largeShare: number;
  readonly times: number;
  /** Of what was there at the start before each batch, what weighed most when it was last asked for. */
  readonly heaviest: Int32Array;
  /** The heaviest that was last asked for, and what it weighs at least in this scenario. */
  readonly asked: Float64Array;
}

function isSurelyLarge({ grams, largeShare }: Layout, { added, before }: Batch): boolean {
  let least = 0;
  let most = 0;
  for (let index = 0; index < added.length; index += 1) least += gramsAtLeast(grams, added[index] as number);
  for (let index = 0; index < before.length; index += 1) most += gramsAtMost(grams, before[index] as number);
  return isLarge(least * (1 - CLOSE), most * (1 + CLOSE), largeShare);
}

function isSurelySmall({ batches, grams, times, heaviest, asked }: Layout, at: number): boolean {
  const { added, before, atStart } = batches[at] as Batch;
  let enough = 0;
  for (let index = 0; index < added.length; index += 1) enough += gramsAtMost(grams, added[index] as number);
  enough *= times;
  if (asked[0] !== heaviest[at]) {
    asked[0] = heaviest[at] as number;
    asked[1] = gramsAtLeast(grams, heaviest[at] as number);
  }
  if ((asked[1] as number) >= enough) return true;
  let sum = 0;
  let most = 0;
  for (let index = 0; index < before.length; index += 1) {
    const least = gramsAtLeast(grams, before[index] as number);
    sum += least;
    if (least > most) {
      most = least;
      heaviest[at] = atStart[index] as number;
    }
  }
  return sum >= enough;
}

function sumOf(grams: Grams, lines: Int32Array): number {
  let sum = 0;
  for (let index = 0; index < lines.length; index += 1) sum += gramsOn(grams, lines[index] as number);
  return sum;
}
