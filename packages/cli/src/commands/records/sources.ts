import { CAUTION_SOURCES, describeRule, rules } from '@commensal/core';
import { sourcesMarkdown, sourcesNamedIn, sourcesText, sourceUse } from '@commensal/records';
import { type Bibliography, bibliographyProblems } from '@commensal/schema';
import { bibliography, standIns } from '@commensal/species-sample';
import { EXIT } from '../../failure.js';
import { openLibrary } from '../../library.js';
import { readDocument } from '../../read-document.js';
import { writeOutput } from '../../write-output.js';

export const SOURCES_FORMATS = ['text', 'markdown', 'json', 'csl'] as const;

export interface SourcesOptions {
  readonly species?: string;
  readonly bibliography?: string;
  readonly format: (typeof SOURCES_FORMATS)[number];
  readonly out?: string;
}

/** What names sources besides records: stand-ins, rules and their thresholds, cautions. */
const elsewhere = (): Set<string> =>
  new Set([...sourcesNamedIn(standIns), ...sourcesNamedIn(rules.map(describeRule)), ...Object.values(CAUTION_SOURCES).flat()]);

/** `commensal records sources`: the bibliography and who uses it. Returns the exit code: 1 where a key leads nowhere. */
export async function runSources(options: SourcesOptions): Promise<number> {
  const records = [...(await openLibrary(options.species)).records.values()];
  const entries =
    options.bibliography === undefined ? bibliography : readDocument<Bibliography>(options.bibliography, bibliographyProblems).document;
  const use = sourceUse(records, entries, elsewhere());
  const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
  const printed = {
    text: () => sourcesText(use),
    markdown: () => sourcesMarkdown(use),
    json: () =>
      json({
        used: use.used.map(({ item, figures, uses }) => ({ id: item.id, figures, uses })),
        unused: use.unused.map(({ id }) => id),
        missing: use.missing,
      }),
    csl: () => json(use.used.map(({ item }) => item)),
  };
  writeOutput(printed[options.format](), options.out);
  return use.missing.length > 0 ? EXIT.found : EXIT.done;
}
