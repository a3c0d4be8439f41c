/**
 * A page of the documentation for every code that `commensal records check` may give, made from the list of codes. `npm run docs`
 * writes them; a test compares, with the same function.
 */
import { holdPages } from './pages.mjs';

const LEVELS = {
  error: 'An error: `commensal records check` ends with 1.',
  warning: 'A warning: `commensal records check` ends with 1 only with `--strict`.',
};

const page = (code, { level, says, more }) =>
  [
    `# ${code}`,
    '',
    says,
    '',
    more,
    '',
    LEVELS[level],
    '',
    '[All problems](index.md) of records, and [how they are checked](../checking-records.md).',
    '',
  ].join('\n');

const index = (codes) =>
  [
    '# Problems of records',
    '',
    'Every code that [`commensal records check`](../checking-records.md) may give.',
    '',
    '| code | level | what is wrong |',
    '|---|---|---|',
    ...codes.map(([code, { level, says }]) => `| [${code}](${code}.md) | ${level} | ${says} |`),
    '',
  ].join('\n');

/** Compares the pages with the codes, or writes them anew. Returns what was not as it should be. */
export async function problemPages({ fix }) {
  const { CODES } = await import('../packages/cli/dist/commands/records/codes.js');
  const codes = [...CODES];
  const pages = new Map(codes.map(([code, known]) => [`${code}.md`, page(code, known)]));
  pages.set('index.md', index(codes));
  return holdPages('docs/problems', pages, 'code', { fix });
}
