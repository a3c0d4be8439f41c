import { type Asked as RuleAsked, askedUnder } from '../../check/check.js';
import { gape } from '../../rules/gape/index.js';
import type { GapeOptions } from '../../rules/gape/options.js';
import { LEVELS } from '../../rules/levels.js';
import { peakAmmonia } from '../../rules/nitrogen/index.js';
import { missingRock } from '../../rules/rock-crowding.js';
import type { AnyRule, Telling } from '../../rules/rule.js';
import type { Stock } from '../../stock/stock.js';
import { type Asked, type Asking, OUTCOMES } from './outputs.js';
import { swallowingPart } from './swallowing.js';
import { rankOf, tallyOf } from './tally.js';

/** Something that is measured on a stock and goes to some columns. */
export type Part = (stock: Stock, into: Float64Array, at: number) => void;

/** How a rule is measured over many scenarios that differ from `stock` in numbers alone. */
type Measured = (stock: Stock, asked: RuleAsked, askings: readonly Asking[]) => Part;

/** Everything that is measured on a stock under its settings, once. */
export const partsOf = (stock: Stock, asked: Asked): Part[] =>
  allParts(stock, asked, (_, { rule, options }, askings) => rulePart(rule, options, askings));

/** The same over many scenarios that differ from it in numbers alone. */
export const partsForMany = (stock: Stock, asked: Asked): Part[] =>
  allParts(stock, asked, (laidOut, { rule, options }, askings) =>
    isGape(rule) ? swallowingPart(laidOut, options as GapeOptions, askings) : rulePart(rule, options, askings),
  );

const isGape = (rule: unknown): boolean => rule === gape;

function allParts(stock: Stock, { byRule, missingRock: rockColumn, peakAmmonia: ammoniaColumn }: Asked, measured: Measured): Part[] {
  const { off } = stock.settings;
  const untested = [...byRule].filter(([{ id }]) => off.includes(id)).map(([, askings]) => untestedPart(askings));
  const asked = askedUnder(stock, [...byRule.keys()]).map((one) => measured(stock, one, byRule.get(one.rule) ?? []));
  return [
    ...untested,
    ...asked,
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
function rulePart(rule: AnyRule, options: Readonly<Record<string, number>>, askings: readonly Asking[]): Part {
  const tally = tallyOf(askings);
  const needsTelling = askings.some(({ what, subjects }) => what === 'first-failure' || subjects.length > 0);
  return (stock, into, at) => {
    tally.start();
    rule.measure(stock, options, (measure) => {
      const verdict = rule.judge(measure, options);
      const rank = rankOf(OUTCOMES.indexOf(verdict.outcome), LEVELS.indexOf(verdict.level));
      const isFinding = verdict.outcome === 'failed' || verdict.outcome === 'cantTell';
      if (!needsTelling || !isFinding) tally.add(rank);
      else {
        const telling = rule.tell(measure, verdict, stock, options);
        tally.add(rank, (subjects) => names(telling, subjects), telling.when === null ? undefined : telling.when - stock.day);
      }
    });
    tally.write(into, at);
  };
}

const names = (telling: Telling, ids: readonly string[]): boolean =>
  ids.every((id) => telling.subjects.some((subject) => subject.id === id));
