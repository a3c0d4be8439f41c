import { heading, item, line, markdownPage, paragraph, type Section, textPage, title } from '@commensal/report';
import type { AlongVariable, ColumnSummary, CountedShare, StudySummaryDocument, VariableGroup } from '@commensal/schema';

/** Variables cut into tenths that are printed for an output: those along which it changes most. */
const MOST_TENTHS = 3;

/** A summary for people, as plain text or Markdown. */
export const summaryText = (document: StudySummaryDocument, format: 'text' | 'markdown'): string =>
  (format === 'markdown' ? markdownPage : textPage)(sectionsOf(document));

function sectionsOf({ title: of, design, replicates, scenarios, invalid, outputs, versions }: StudySummaryDocument): Section[] {
  // Scenarios that somebody chose are no sample, and those of a sensitivity design share their figures: no interval of independent draws holds for them.
  const isDrawn = design !== 'grid' && design !== 'given' && design !== 'sensitivity';
  const intervals = isDrawn ? 'Intervals hold the share in 95 of 100 studies like this one (Wilson). ' : '';
  const runs = replicates > 1 ? `, in ${whole(replicates)} runs` : '';
  const left = invalid === 0 ? '' : ` ${whole(invalid)} of them count in nothing below, as a figure came out that cannot be.`;
  return [
    [
      ...(of === undefined ? [] : [title(of)]),
      paragraph(`${whole(scenarios)} ${scenarios === 1 ? 'scenario' : 'scenarios'} of design ${design}${runs}.${left}`),
    ],
    ...outputs.flatMap((output) => outputSections(output, isDrawn)),
    [paragraph(`${intervals}Made with commensal ${versions.code}, schema ${versions.schema}, records ${versions.data}.`)],
  ];
}

function outputSections(output: ColumnSummary, isDrawn: boolean): Section[] {
  const shareWords = isDrawn ? drawnShare : chosenShare;
  const { column, description, codes, told, standardError, by, sensitivity } = output;
  const isShare = codes !== undefined || output.kind === 'day';
  const lines = [
    ...(codes ?? []).map(({ code, ...share }) => item(`${code}: ${shareWords(share)}`, 2)),
    ...(told === undefined || (told.count === told.of && output.kind !== 'day')
      ? []
      : [item(`${output.kind === 'day' ? 'happens' : 'has a figure'}: ${shareWords(told)}`, 2)]),
    ...figureLines(output).map((text) => item(text, 2)),
    ...(standardError === undefined
      ? []
      : [
          item(
            isShare
              ? `standard error of that share between runs: ${(100 * standardError).toFixed(2)} percentage points`
              : `standard error of the mean between runs: ${figure(standardError)}${unitWords(output)}`,
            2,
          ),
        ]),
  ];
  const same = by.filter((along) => changeAlong(along) === 0).map(({ variable }) => variable);
  const still = same.length === 0 || same.length === by.length ? [] : [item(`the same along ${same.join(', ')}`, 2)];
  return [
    [heading(column), paragraph(description), ...lines, ...still],
    ...shownOf(by).map((along) => alongSection(output, along, shareWords)),
    ...(sensitivity === undefined ? [] : [sensitivitySection(sensitivity)]),
  ];
}

function figureLines(output: ColumnSummary): string[] {
  const { mean, standardDeviation, least, greatest, quantiles = [] } = output;
  if (mean === undefined) return [];
  const unit = unitWords(output);
  if (least !== undefined && least === greatest) return [`always ${figure(least)}${unit}`];
  const spread = standardDeviation === undefined ? '' : `, standard deviation ${figure(standardDeviation)}`;
  return [
    `mean ${figure(mean)}${unit}${spread}; from ${figure(least ?? mean)} to ${figure(greatest ?? mean)}`,
    ...(quantiles.length === 0 ? [] : [`quantiles: ${quantiles.map(({ at, value }) => `${100 * at}\u00A0% ${figure(value)}`).join(', ')}`]),
  ];
}

/** Variables along which it changes: all of few values, and of the others those along which it changes most. */
function shownOf(by: readonly AlongVariable[]): AlongVariable[] {
  const isValues = ({ groups }: AlongVariable): boolean => groups.every(({ value, word }) => value !== undefined || word !== undefined);
  const tenths = by.filter((along) => !isValues(along) && changeAlong(along) > 0);
  const most = [...tenths].sort((one, other) => changeAlong(other) - changeAlong(one)).slice(0, MOST_TENTHS);
  return by.filter((along) => (isValues(along) && changeAlong(along) > 0) || most.includes(along));
}

function changeAlong({ groups }: AlongVariable): number {
  const values = groups.map(({ counted, mean }) => counted?.share ?? mean).filter((value) => value !== undefined);
  return values.length === 0 ? 0 : Math.max(...values) - Math.min(...values);
}

function alongSection({ codes, kind }: ColumnSummary, { variable, groups }: AlongVariable, shareWords: (share: Share) => string): Section {
  const what = codes === undefined ? (kind === 'day' ? 'how often it happens' : 'mean') : 'how often it fails';
  return [
    line(`Along ${variable}, ${what}:`, 2),
    ...groups.map((group) =>
      item(
        `${groupWords(group)}: ${group.counted === undefined ? (group.mean === undefined ? 'none' : figure(group.mean)) : shareWords(group.counted)}`,
        4,
      ),
    ),
  ];
}

function groupWords({ value, word, from, to }: VariableGroup): string {
  if (word !== undefined) return word;
  if (value !== undefined) return figure(value);
  if (from === undefined) return `up to ${figure(to ?? 0)}`;
  return to === undefined ? `over ${figure(from)}` : `over ${figure(from)} up to ${figure(to)}`;
}

function sensitivitySection(shares: NonNullable<ColumnSummary['sensitivity']>): Section {
  const sorted = [...shares].sort((one, other) => other.total - one.total);
  const range = (share: number, error: number): string => `${percent(share)} (give or take ${percent(error)})`;
  return [
    line('Shares of its variance:', 2),
    ...sorted.map(({ variable, first, total, firstError, totalError }) =>
      item(`${variable}: alone ${range(first, firstError)}, with its interplay ${range(total, totalError)}`, 4),
    ),
  ];
}

type Share = Omit<CountedShare, 'share'> & { readonly share?: number | undefined };

const chosenShare = ({ count, of, share }: Share): string =>
  share === undefined ? 'no scenarios' : `${whole(count)} of ${whole(of)}, ${percent(share)}`;

const drawnShare = (of: Share): string =>
  of.share === undefined ? 'no scenarios' : `${chosenShare(of)} (${percent(of.low)} to ${percent(of.high)})`;

const UNITS: Readonly<Record<string, string>> = { d: ' days', '1': '', Cel: ' °C' };
const unitWords = ({ unit }: ColumnSummary): string => (unit === undefined ? '' : (UNITS[unit] ?? ` ${unit}`));

const whole = (value: number): string => value.toLocaleString('en');
const percent = (share: number): string => `${(100 * share).toFixed(1)}\u00A0%`;

/** Four digits that count. */
const figure = (value: number): string => String(Number(value.toPrecision(4)));
