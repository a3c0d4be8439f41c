/**
 * The page of the documentation that says what the fields of the sample rest on, with its picture, made from the records. `npm run docs`
 * writes both; a test compares, with the same function.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { root } from './fingerprint.mjs';

const ABOUT = `Every figure and statement of a record says what it rests on: see [the five bases](first-steps-volunteers.md). This page counts them over the
records that ship in the sample. \`npm run docs\` makes it anew from the records; \`commensal records coverage\` prints the same for any folder of
records.

![Stacked bars, one a field: how many records hold it, by basis](coverage.svg)`;

/** Compares the page and its picture with the records, or writes them anew. Returns what was not as it should be. */
export async function coveragePage({ fix }) {
  const { coverageMarkdown, coverageOf, coveragePicture } = await import('@commensal/records');
  const { en } = await import('@commensal/report/en');
  const { records } = await import('@commensal/species-sample');
  const coverage = coverageOf(records);
  const files = {
    'docs/coverage.md': `# What the records cover\n\n${ABOUT}\n\n${coverageMarkdown(coverage, en)}`,
    'docs/coverage.svg': coveragePicture(coverage),
  };
  const problems = [];
  for (const [name, text] of Object.entries(files)) {
    const file = path.join(root, name);
    if (existsSync(file) && readFileSync(file, 'utf8') === text) continue;
    problems.push(`${name} is not what the records say`);
    if (fix) writeFileSync(file, text);
  }
  return { files: Object.keys(files).length, problems };
}
