/**
 * A page of the documentation for every code of a problem, made from the list of codes and from mistakes planted into the sample, whose
 * messages are the examples. `npm run docs` writes them; a test compares, with the same function.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { foundIn } from '../tests/records/planted.mjs';
import { root } from './fingerprint.mjs';
import { holdPages } from './pages.mjs';

const LEVELS = {
  error: 'An error: `commensal records check` ends with 1.',
  warning: 'A warning: `commensal records check` ends with 1 only with `--strict`.',
};

/** Where codes show, in the order of the index. */
const PLACES = {
  file: ['In the text of a file', 'Nothing else is looked at then.'],
  record: ['In one record', 'What the schema says comes first; whether a record is plausible is asked once the schema holds.'],
  records: ['Between records', 'They show only where several records are checked together.'],
  form: ['In the form of a record', '`commensal records fix` puts them right.'],
  table: ['In tables of measurements', 'Nothing is added to any record then.'],
  situation: ['In situations and other documents', 'No check of records gives them.'],
  study: ['In what-if studies', 'No check of records gives them.'],
  call: ['In the call of a command', 'The command ends with 2, and nothing is written.'],
};

const level = ({ level: of, foundIn: place }) =>
  ['call', 'situation', 'study', 'table'].includes(place) ? 'An error: the command ends with 2, and nothing is written.' : LEVELS[of];

const exceptionText = (code, { exception, foundIn: place }, pointer) =>
  exception === undefined
    ? place === 'record' || place === 'records'
      ? ['## Exceptions', '', 'None: it is never right as it stands.', '']
      : []
    : [
        '## Exceptions',
        '',
        `${exception} Then say so in the record, with the reason:`,
        '',
        '```json',
        `"exceptions": [{ "code": "${code}", "at": "${pointer}", "reason": "..." }]`,
        '```',
        '',
      ];

const exampleText = (example) =>
  example === undefined ? [] : ['## An example', '', example.says, '', '```text', ...example.lines, '```', ''];

const page = (code, known, example) =>
  [
    `# ${code}`,
    '',
    known.says,
    '',
    level(known),
    '',
    '## Why it matters',
    '',
    known.matters,
    '',
    '## What to do',
    '',
    known.repair,
    '',
    ...exceptionText(code, known, example?.pointer ?? '/shape'),
    ...exampleText(example),
    '[All problems](README.md), and [how records are checked](../checking-records.md).',
    '',
  ].join('\n');

const index = (codes) =>
  [
    '# Problems',
    '',
    'Every code that a message may carry, by where it shows. [`commensal records check`](../checking-records.md) gives those of files, records and form.',
    '',
    ...Object.entries(PLACES).flatMap(([place, [title, more]]) => [
      `## ${title}`,
      '',
      more,
      '',
      '| code | level | what is wrong | can be excepted |',
      '|---|---|---|---|',
      ...codes
        .filter(([, { foundIn: of }]) => of === place)
        .map(
          ([code, known]) => `| [${code}](${code}.md) | ${known.level} | ${known.says} | ${known.exception === undefined ? 'no' : 'yes'} |`,
        ),
      '',
    ]),
  ].join('\n');

const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/** The message of the first mistake planted for each code, as text. */
async function plantedExamples() {
  const records = await import('@commensal/records');
  const { speciesProblems } = await import('@commensal/schema');
  const { validate } = await import('@commensal/schema/validate/species');
  const sample = await import('@commensal/species-sample');
  const { parseJson } = await import('../packages/cli/dist/parse-json.js');
  const mistakes = JSON.parse(readFileSync(path.join(root, 'tests/records/planted-mistakes.json'), 'utf8'));
  const examples = new Map();
  for (const mistake of mistakes) {
    if (examples.has(mistake.code)) continue;
    const [problem] = foundIn(mistake, sample, { ...records, parseJson, speciesProblems, validate });
    const lines = [`${problem.found}; ${problem.allowed}.`, problem.fix];
    examples.set(mistake.code, { pointer: problem.pointer, says: `${upper(mistake.says)}:`, lines });
  }
  return examples;
}

const SITUATION = 'examples/lantern-quay.situation.json';
const GRAMMA = 'packages/species-sample/records/grammatidae/gramma-loreto.species.json';

/** Calls that end with each of the other codes, from the root of the repository. */
const CALLS = {
  'no-such-file': ['check', 'no-such.situation.json'],
  'not-a-file': ['check', 'examples'],
  'no-such-folder': ['check', SITUATION, '--species', 'no-such-folder'],
  'no-records': ['check', SITUATION, '--species', 'examples'],
  'far-day': ['check', SITUATION, '--as-of', '9000-01-01'],
  'unknown-rule': ['rules', 'gap'],
  'same-file': ['records', 'check', GRAMMA, '--out', GRAMMA],
  'unknown-species': {
    args: ['check', '-'],
    says: 'A wish for "amphiprion-ocelaris":',
    change: (situation) => ({ ...situation, wishes: [{ species: 'amphiprion-ocelaris', count: [1, 1] }] }),
  },
  'unknown-animal': {
    args: ['check', '-'],
    says: 'Taking "bosum" out, where the tank has "bosun":',
    change: (situation) => ({ ...situation, events: [{ kind: 'animal-removed', date: '2027-02-20', animal: 'bosum' }] }),
  },
};

/** What the command line prints for them. */
function calledExamples() {
  const command = path.join(root, 'packages/cli/dist/commensal.js');
  const situation = JSON.parse(readFileSync(path.join(root, SITUATION), 'utf8'));
  return Object.entries(CALLS).map(([code, call]) => {
    const { args, says, change } = Array.isArray(call) ? { args: call } : call;
    const input = change === undefined ? '' : JSON.stringify(change(situation), null, 2);
    const env = { ...process.env, NO_COLOR: '1' };
    const { stderr } = spawnSync(process.execPath, [command, ...args], { cwd: root, input, encoding: 'utf8', env });
    const lines = stderr.trimEnd().split('\n');
    if (!lines.some((line) => line.endsWith(code)))
      throw new Error(`problem pages: commensal ${args.join(' ')} does not end with ${code}: ${stderr}`);
    return [code, { pointer: '', says: says ?? `\`commensal ${args.join(' ')}\`:`, lines }];
  });
}

/** Compares the pages with the codes, or writes them anew. Returns what was not as it should be. */
export async function problemPages({ fix }) {
  const { PROBLEM_CODES } = await import('@commensal/records');
  const codes = Object.entries(PROBLEM_CODES).sort(([one], [other]) => (one < other ? -1 : 1));
  const examples = new Map([...calledExamples(), ...(await plantedExamples())]);
  const pages = new Map(codes.map(([code, known]) => [`${code}.md`, page(code, known, examples.get(code))]));
  pages.set('README.md', index(codes));
  return holdPages('docs/problems', pages, 'code', { fix });
}
