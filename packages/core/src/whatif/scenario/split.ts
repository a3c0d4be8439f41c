import { appetite } from '../../rules/appetite/index.js';
import { escaping } from '../../rules/escape/index.js';
import { rivalry } from '../../rules/rivalry.js';
import type { AnyRule } from '../../rules/rule.js';
import { swimmingRoom } from '../../rules/swimming-room.js';
import { holding } from '../../stock/same-shape.js';
import type { Stock, StockAnimal } from '../../stock/stock.js';
import type { Asking } from './outputs.js';
import { takingIn } from './parts.js';
import type { Probe, Run } from './runs.js';
import { isReadBy } from './slots.js';
import { tallyOf } from './tally.js';

/** Each animal by itself. */
const oneByOne = ({ animals }: Stock): StockAnimal[][] => animals.map((animal) => [animal]);

/** Any two species with all their animals: what two animals do to each other may hang on how many there are of their kinds. */
function twoByTwo({ animals }: Stock): StockAnimal[][] {
  const ids = [...new Set(animals.map(({ kind }) => kind.id))];
  const some = ids.flatMap((one, at) => ids.slice(at + 1).map((other) => new Set([one, other])));
  const groups = ids.length === 1 ? [new Set(ids)] : some;
  return groups.map((group) => animals.filter(({ kind }) => group.has(kind.id)));
}

/** Rules that say of a stock what they say of parts of it, the same judgement more than once at most. */
const SPLITS: ReadonlyMap<unknown, (stock: Stock) => StockAnimal[][]> = new Map<unknown, (stock: Stock) => StockAnimal[][]>([
  [appetite, twoByTwo],
  [rivalry, twoByTwo],
  [swimmingRoom, oneByOne],
  [escaping, oneByOne],
]);

export const isSplit = (rule: unknown): boolean => SPLITS.has(rule);

/**
 * A rule that is about one animal or about two, over many scenarios: what it says of those of whom it reads nothing that varies is said once, and only the others are
 * asked about in each.
 */
export function splitRun(
  rule: AnyRule,
  options: Readonly<Record<string, number>>,
  askings: readonly Asking[],
  stock: Stock,
  probe: Probe,
): Run {
  const tally = tallyOf(askings, rule.gravest);
  const take = takingIn(rule, options, askings, tally);
  const partsOf = (whole: Stock): Stock[] => (SPLITS.get(rule)?.(whole) ?? []).map((animals) => holding(whole, animals));
  const probed = partsOf(probe.stock);
  const varies = probed.map((part) => isReadBy(probe.slots, () => take(part)));
  const parts = partsOf(stock);
  const varying = parts.filter((_, at) => varies[at] === true);
  tally.start();
  for (const part of parts.filter((_, at) => varies[at] !== true)) take(part);
  tally.keep();
  return {
    varies: varying.length > 0 && !tally.isFull(),
    run: (_values, written, into, at) => {
      written();
      tally.start();
      for (let index = 0; index < varying.length && !tally.isFull(); index += 1) {
        const part = varying[index] as Stock;
        take(part);
        // What settled it here may well do so in the next scenario.
        if (index > 0 && tally.isFull()) {
          varying[index] = varying[0] as Stock;
          varying[0] = part;
        }
      }
      tally.write(into, at);
    },
  };
}
