/**
 * A page of the documentation for every code of a problem, made from the list of codes. `npm run docs`
 * writes them; a test compares, with the same function.
 */
import { holdPages } from './pages.mjs';

const LEVELS = {
  error: 'An error: `commensal records check` ends with 1.',
  warning: 'A warning: `commensal records check` ends with 1 only with `--strict`.',
};

const EXCEPTION = 'Where it is right as it stands, `exceptions` of the record can say so, with the reason:';

const page = (code, { level, foundIn, says, matters, repair, exception }) =>
  [
    `# ${code}`,
    says,
    matters,
    repair,
    ...(exception === undefined ? [] : [`${EXCEPTION} ${exception}`]),
    ...(foundIn === 'call' || foundIn === 'situation' ? [] : [LEVELS[level]]),
    '[All problems](index.md), and [how records are checked](../checking-records.md).',
    '',
  ]
    .join('\n\n')
    .trimEnd()
    .concat('\n');

const index = (codes) =>
  [
    '# Problems',
    '',
    'Every code of a problem. Those of records are what [`commensal records check`](../checking-records.md) may give.',
    '',
    '| code | found in | level | what is wrong |',
    '|---|---|---|---|',
    ...codes.map(([code, { level, foundIn, says }]) => `| [${code}](${code}.md) | ${foundIn} | ${level} | ${says} |`),
    '',
  ].join('\n');

/** Compares the pages with the codes, or writes them anew. Returns what was not as it should be. */
export async function problemPages({ fix }) {
  const { PROBLEM_CODES } = await import('@commensal/records');
  const codes = Object.entries(PROBLEM_CODES).sort(([one], [other]) => (one < other ? -1 : 1));
  const pages = new Map(codes.map(([code, known]) => [`${code}.md`, page(code, known)]));
  pages.set('index.md', index(codes));
  return holdPages('docs/problems', pages, 'code', { fix });
}
