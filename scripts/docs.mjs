/**
 * The code blocks of the documentation, run: a block marked `js run` or `sh run` is followed by a block `text output` that holds
 * what it prints. `npm run docs` writes what is printed into those blocks; `npm run docs -- --check` only compares.
 *
 * A first or last line `...` in an output block stands for lines that were cut.
 */
import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { root } from './fingerprint.mjs';
import { ready } from './ready.mjs';
import { problemPages } from './problem-pages.mjs';
import { rulePages } from './rule-pages.mjs';

const CUT = '...';
const MOST_MS = 60_000;

/** The Markdown files that people read, as paths from the folder. */
export function documents(folder = root) {
  const inFolder = (place) => {
    const full = path.join(folder, place);
    return existsSync(full) ? readdirSync(full, { recursive: true, encoding: 'utf8' }).map((name) => path.join(place, name)) : [];
  };
  const packages = existsSync(path.join(folder, 'packages')) ? readdirSync(path.join(folder, 'packages')) : [];
  const named = ['README.md', 'DEVELOPERS.md', ...packages.map((name) => path.join('packages', name, 'README.md'))];
  return [
    ...named.filter((file) => existsSync(path.join(folder, file))),
    ...inFolder('docs').filter((file) => file.endsWith('.md')),
  ].sort();
}

/** The fenced blocks of a text; `from` and `to` are the indices of the first line within and of the closing fence. */
export function fencesIn(lines) {
  const fences = [];
  let open;
  lines.forEach((line, index) => {
    const [, ticks, info] = /^(`{3,})\s*([^`]*)$/.exec(line) ?? [];
    if (ticks === undefined) return;
    if (open === undefined) open = { ticks, info: info.trim(), from: index + 1 };
    else if (info === '' && ticks.length >= open.ticks.length) {
      fences.push({ info: open.info, from: open.from, to: index });
      open = undefined;
    }
  });
  return fences;
}

const isRun = ({ info }) => info === 'js run' || info === 'sh run';
const isOutput = ({ info }) => info === 'text output';

/** Runs a block from the root of the repository; what it prints, and why it failed if it did. */
function run(info, code, shims) {
  const env = { ...process.env, NO_COLOR: '1', PATH: `${shims}${path.delimiter}${process.env.PATH}` };
  delete env.NODE_OPTIONS;
  const [command, args] = info === 'js run' ? [process.execPath, ['--input-type=module', '-']] : ['sh', ['-eu']];
  const { status, stdout, stderr, error } = spawnSync(command, args, { cwd: root, input: code, encoding: 'utf8', env, timeout: MOST_MS });
  const failed = error === undefined ? (status === 0 ? undefined : `it ended with ${status}: ${stderr.trim()}`) : error.message;
  return { printed: stdout.trimEnd().split('\n'), failed };
}

/** `commensal` on the path is the command line that was built here. */
function makeShims() {
  const folder = mkdtempSync(path.join(tmpdir(), 'commensal-docs-'));
  const shim = path.join(folder, 'commensal');
  writeFileSync(shim, `#!/bin/sh\nexec "${process.execPath}" "${path.join(root, 'packages/cli/dist/commensal.js')}" "$@"\n`);
  chmodSync(shim, 0o755);
  return folder;
}

const startOf = (printed, kept) => {
  const at = printed.indexOf(kept[0]);
  return at < 0 ? undefined : at;
};

/**
 * The lines that an output block should hold for what was printed: all of it, or as much as the block has lines between its
 * cuts. Undefined where both ends are cut and the first line between them is no longer printed.
 */
export function wantedLines(held, printed) {
  const cutBefore = held[0] === CUT;
  const cutAfter = held.length > 1 && held.at(-1) === CUT;
  const kept = held.slice(cutBefore ? 1 : 0, cutAfter ? -1 : undefined);
  if (!cutBefore && !cutAfter) return printed;
  const from = !cutBefore ? 0 : cutAfter ? startOf(printed, kept) : Math.max(0, printed.length - kept.length);
  if (from === undefined) return undefined;
  return [...(cutBefore ? [CUT] : []), ...printed.slice(from, from + kept.length), ...(cutAfter ? [CUT] : [])];
}

function checkFile(folder, file, fix, shims) {
  const lines = readFileSync(path.join(folder, file), 'utf8').split('\n');
  const fences = fencesIn(lines);
  const problems = [];
  const repairs = [];
  const tell = (fence, what) => problems.push(`${file}:${fence.from} ${what}`);
  fences.forEach((fence, index) => {
    if (isOutput(fence) && (index === 0 || !isRun(fences[index - 1]))) tell(fence, 'an output block without a block that is run before it');
    if (!isRun(fence)) return;
    const output = fences[index + 1];
    if (output === undefined || !isOutput(output)) {
      tell(fence, 'a block that is run needs a block "text output" after it');
      return;
    }
    const { printed, failed } = run(fence.info, lines.slice(fence.from, fence.to).join('\n'), shims);
    if (failed !== undefined) {
      tell(fence, failed);
      return;
    }
    const held = lines.slice(output.from, output.to);
    const wanted = wantedLines(held, printed);
    if (wanted === undefined) tell(output, `between the cuts, "${held[1]}" is no longer printed; choose the lines anew`);
    else if (wanted.join('\n') !== held.join('\n')) {
      if (fix) repairs.push({ output, wanted });
      else tell(output, `prints something else:\n${wanted.join('\n')}`);
    }
  });
  for (const { output, wanted } of repairs.reverse()) lines.splice(output.from, output.to - output.from, ...wanted);
  if (repairs.length > 0) writeFileSync(path.join(folder, file), lines.join('\n'));
  return { blocks: fences.filter(isRun).length, repaired: repairs.length, problems };
}

/**
 * Runs every block of the documents in a folder; with `fix` puts what is printed into the output blocks. Returns how many blocks
 * there are, how many outputs were written anew, and what is wrong, with file and line.
 */
export function checkDocuments({ fix, folder = root }) {
  const shims = makeShims();
  try {
    const results = documents(folder).map((file) => checkFile(folder, file, fix, shims));
    const blocks = results.reduce((sum, result) => sum + result.blocks, 0);
    const none = blocks === 0 ? ['no block is marked "js run" or "sh run"'] : [];
    return {
      blocks,
      repaired: results.reduce((sum, result) => sum + result.repaired, 0),
      problems: [...none, ...results.flatMap((result) => result.problems)],
    };
  } finally {
    rmSync(shims, { recursive: true, force: true });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await ready({ build: true });
  const fix = !process.argv.includes('--check');
  const pages = [await rulePages({ fix }), await problemPages({ fix })].flatMap(({ problems }) => problems);
  const { blocks, repaired, problems } = checkDocuments({ fix });
  if (!fix) problems.push(...pages);
  for (const problem of problems) process.stderr.write(`${problem}\n`);
  process.stdout.write(`${blocks} blocks run, ${repaired} outputs written anew, ${problems.length} problems\n`);
  process.exitCode = problems.length > 0 ? 1 : 0;
}
