import { coverageCsv, coverageMarkdown, coverageOf, coveragePicture, coverageText } from '@commensal/records';
import { en } from '@commensal/report/en';
import type { Coverage } from '@commensal/schema';
import { badCall, EXIT } from '../../failure.js';
import { openLibrary } from '../../library.js';
import { either } from '../../words.js';
import { writeOutput } from '../../write-output.js';

export const COVERAGE_FORMATS = ['text', 'markdown', 'json', 'csv', 'svg'] as const;

export interface CoverageOptions {
  readonly species?: string;
  readonly family?: string;
  readonly form?: string;
  readonly format: (typeof COVERAGE_FORMATS)[number];
  readonly out?: string;
}

const PRINTED: Readonly<Record<CoverageOptions['format'], (coverage: Coverage) => string>> = {
  text: coverageText,
  markdown: (coverage) => coverageMarkdown(coverage, en),
  json: (coverage) => `${JSON.stringify(coverage, null, 2)}\n`,
  csv: coverageCsv,
  svg: coveragePicture,
};

/** `commensal records coverage`: how many records hold each field, by what it rests on. Returns the exit code. */
export async function runCoverage({ species, family, form, format, out }: CoverageOptions): Promise<number> {
  const all = [...(await openLibrary(species)).records.values()];
  const chosen = all.filter(
    (record) => (family === undefined || record.taxon.family === family) && (form === undefined || record.form === form),
  );
  if (chosen.length === 0) {
    const families = [...new Set(all.map(({ taxon }) => taxon.family))].sort();
    throw badCall(
      'no-records',
      `none of the ${all.length} records at hand is ${[family === undefined ? '' : `of ${family}`, form === undefined ? '' : `a ${form}`].filter((part) => part !== '').join(' and ')}`,
      `their families are ${either(families).replace(' or ', ' and ')}`,
      'Name another family or form, or leave the option out.',
    );
  }
  writeOutput(PRINTED[format](coverageOf(chosen)), out);
  return EXIT.done;
}
