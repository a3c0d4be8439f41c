import type { ColumnSummary, StudySummaryDocument, VariableGroup } from '@commensal/schema';

const HEAD = 'column,statistic,variable,group,value,low,high,count,of';

/** A summary as a long table: one figure a line. */
export const summaryCsv = ({ outputs }: StudySummaryDocument): string =>
  [HEAD, ...outputs.flatMap((output) => linesOf(output).map((cells) => [output.column, ...cells].map(cell).join(',')))]
    .join('\n')
    .concat('\n');

type Cell = string | number | undefined;

function linesOf(output: ColumnSummary): Cell[][] {
  const { codes = [], told, by, sensitivity = [], quantiles = [] } = output;
  const one = (statistic: string, value: number | undefined): Cell[][] =>
    value === undefined ? [] : [[statistic, '', '', value, '', '', '', '']];
  return [
    ...codes.map(({ code, share, low, high, count, of }) => [`share:${code}`, '', '', share, low, high, count, of]),
    ...(told === undefined ? [] : [['share:told', '', '', told.share, told.low, told.high, told.count, told.of]]),
    ...one('mean', output.mean),
    ...one('standard-deviation', output.standardDeviation),
    ...one('standard-error', output.standardError),
    ...one('least', output.least),
    ...one('greatest', output.greatest),
    ...quantiles.flatMap(({ at, value }) => one(`quantile:${at}`, value)),
    ...by.flatMap(({ variable, groups }) =>
      groups.map((group) => {
        const { counted, mean, scenarios } = group;
        return counted === undefined
          ? ['mean', variable, groupCell(group), mean, '', '', '', scenarios]
          : ['share', variable, groupCell(group), counted.share, counted.low, counted.high, counted.count, counted.of];
      }),
    ),
    ...sensitivity.flatMap(({ variable, first, total, firstError, totalError }) => [
      ['first-order', variable, '', first, first - firstError, first + firstError, '', ''],
      ['total', variable, '', total, total - totalError, total + totalError, '', ''],
    ]),
  ];
}

/** A value, a word, or both ends with a semicolon between them. */
const groupCell = ({ value, word, from, to }: VariableGroup): Cell => word ?? value ?? `${from ?? ''};${to ?? ''}`;

const cell = (value: Cell): string => {
  const text = value === undefined ? '' : String(value);
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};
