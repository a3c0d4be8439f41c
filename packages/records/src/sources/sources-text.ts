import { cited } from '@commensal/report';
import type { MissingSource, SourceUse, UseOfSource } from './source-use.js';

const plural = (count: number, one: string, several: string): string => `${count} ${count === 1 ? one : several}`;

/** Records named one by one up to here; beyond it a count says more. */
const MOST_NAMED = 6;

function usersOf(uses: readonly UseOfSource[]): string {
  const named = uses
    .slice(0, MOST_NAMED)
    .map(({ record, figures }) => (figures === 0 ? `${record} (listed only)` : `${record} (${figures})`));
  const rest = uses.length - named.length;
  return [...named, ...(rest > 0 ? [`and ${rest} more`] : [])].join(', ');
}

const missingLine = ({ key, uses, near }: MissingSource): string =>
  `${key}: used by ${usersOf(uses)}${near === undefined ? '. Add an entry for it.' : `. Did you mean ${near}?`}`;

interface Setting {
  readonly heading: (text: string) => string;
  readonly entry: (key: string, text: string, more: string) => string;
  readonly item: (text: string) => string;
}

const PLAIN: Setting = {
  heading: (text) => `${text}\n${'-'.repeat(text.length)}`,
  entry: (key, text, more) => `${key}\n  ${text}\n  ${more}`,
  item: (text) => `- ${text}`,
};

const MARKDOWN: Setting = {
  heading: (text) => `## ${text}`,
  entry: (key, text, more) => `- \`${key}\`: ${text} ${more}`,
  item: (text) => `- ${text}`,
};

function set({ used, unused, missing }: SourceUse, { heading, entry, item }: Setting): string {
  const parts = [
    ...(missing.length === 0
      ? []
      : [heading(`Named by records, not in the bibliography: ${missing.length}`), missing.map((one) => item(missingLine(one))).join('\n')]),
    heading(`Used by records: ${used.length}`),
    used
      .map((one) =>
        entry(
          one.item.id,
          cited(one.item),
          `${plural(one.figures, 'figure', 'figures')} of ${plural(one.uses.length, 'record', 'records')}: ${usersOf(one.uses)}.`,
        ),
      )
      .join('\n'),
    ...(unused.length === 0
      ? []
      : [
          heading(`In the bibliography, used by nothing: ${unused.length}`),
          unused.map((one) => item(`${one.id}: ${cited(one)}`)).join('\n'),
        ]),
  ];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

/** Sources with their citations and users, and keys that lead nowhere, as plain text. */
export const sourcesText = (use: SourceUse): string => set(use, PLAIN);

/** The same as Markdown, without a title. */
export const sourcesMarkdown = (use: SourceUse): string => set(use, MARKDOWN);
