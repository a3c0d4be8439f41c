import { askedUnder } from '../../check/check.js';
import { LEVELS } from '../../rules/levels.js';
import { peakAmmonia } from '../../rules/nitrogen/index.js';
import { missingRock } from '../../rules/rock-crowding.js';
import type { AnyRule, Telling } from '../../rules/rule.js';
import type { Stock } from '../../stock/stock.js';
import { type Asked, type Asking, OUTCOMES } from './outputs.js';
import { rankOf, type Tally, tallyOf } from './tally.js';

/** Something that is measured on a stock and goes to some columns. */
export type Part = (stock: Stock, into: Float64Array, at: number) => void;

/** Everything that is measured on a stock under its settings, once. */
export const partsOf = (stock: Stock, asked: Asked): Part[] => [
  ...askedUnder(stock, [...asked.byRule.keys()]).map(({ rule, options }) => rulePart(rule, options, asked.byRule.get(rule) ?? [])),
  ...otherParts(stock, asked),
];

/** The same without the rules that are asked. */
export function otherParts({ settings: { off } }: Stock, { byRule, missingRock: rockColumn, peakAmmonia: ammoniaColumn }: Asked): Part[] {
  return [
    ...[...byRule].filter(([{ id }]) => off.includes(id)).map(([, askings]) => untestedPart(askings)),
    ...(rockColumn === undefined ? [] : [figurePart(rockColumn, missingRock)]),
    ...(ammoniaColumn === undefined ? [] : [figurePart(ammoniaColumn, peakAmmonia)]),
  ];
}

const figurePart =
  (column: number, of: (stock: Stock) => number | undefined): Part =>
  (stock, into, at) => {
    into[at + column] = of(stock) ?? Number.NaN;
  };

const untestedPart =
  (askings: readonly Asking[]): Part =>
  (_, into, at) => {
    for (const { what, column } of askings) if (what === 'outcome') into[at + column] = OUTCOMES.indexOf('untested');
  };

/** One rule, with all that is asked of it. */
export function rulePart(rule: AnyRule, options: Readonly<Record<string, number>>, askings: readonly Asking[]): Part {
  const tally = tallyOf(askings);
  const take = takingIn(rule, options, askings, tally);
  return (stock, into, at) => {
    tally.start();
    take(stock);
    tally.write(into, at);
  };
}

/** Takes all that a rule says of a stock into a tally. */
export function takingIn(
  rule: AnyRule,
  options: Readonly<Record<string, number>>,
  askings: readonly Asking[],
  tally: Tally,
): (stock: Stock) => void {
  const needsTelling = askings.some(({ what, subjects }) => what === 'first-failure' || subjects.length > 0);
  let stock: Stock;
  const each = (measure: unknown): void => {
    const verdict = rule.judge(measure, options);
    const rank = rankOf(OUTCOMES.indexOf(verdict.outcome), LEVELS.indexOf(verdict.level));
    const isFinding = verdict.outcome === 'failed' || verdict.outcome === 'cantTell';
    if (!needsTelling || !isFinding) tally.add(rank);
    else {
      const telling = rule.tell(measure, verdict, stock, options);
      tally.add(rank, (subjects) => names(telling, subjects), telling.when === null ? undefined : telling.when - stock.day);
    }
  };
  return (measured) => {
    stock = measured;
    rule.measure(measured, options, each);
  };
}

const names = (telling: Telling, ids: readonly string[]): boolean =>
  ids.every((id) => telling.subjects.some((subject) => subject.id === id));
