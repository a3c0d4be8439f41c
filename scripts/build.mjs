/** Everything that has to be made before the packages run: generated sources, compiled packages, the bundled command line. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { buildFingerprint, missingOutput, packageFolders, promisedFiles, root, writeStamp } from './fingerprint.mjs';

/** A script that may not be there has nothing to make. */
async function runIfPresent(script, exported) {
  const file = path.join(root, 'scripts', script);
  if (existsSync(file)) await (await import(pathToFileURL(file).href))[exported]();
}

/** The compiler trusts its own notes; where output was deleted under them, they go too. */
function forgetDeletedOutput() {
  for (const folder of packageFolders()) {
    if (promisedFiles(folder).some((file) => !existsSync(file))) rmSync(path.join(folder, 'dist/.tsbuildinfo'), { force: true });
  }
}

function compile() {
  forgetDeletedOutput();
  const result = spawnSync(process.execPath, [path.join(root, 'node_modules/typescript/bin/tsc'), '-b', '--pretty', 'false'], {
    cwd: root,
    encoding: 'utf8',
  });
  if (result.status !== 0) throw new Error(`${result.stdout}${result.stderr}` || String(result.error));
}

function filesUnder(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.join(entry.parentPath ?? entry.path, entry.name));
}

/** The compiler leaves the output of deleted sources behind, and it would be packed. */
function dropOrphans(startedAt) {
  for (const folder of packageFolders()) {
    const dist = path.join(folder, 'dist');
    const promised = promisedFiles(folder);
    for (const file of filesUnder(dist)) {
      const stem = path.relative(dist, file).replace(/(\.d\.ts|\.js)$/, '');
      const made = ['.ts', '.js', '.d.ts'].some((ending) => existsSync(path.join(folder, 'src', stem + ending)));
      if (/\.(js|d\.ts)$/.test(file) && !made && !promised.includes(file) && statSync(file).mtimeMs < startedAt) rmSync(file);
    }
  }
}

/** Generated JavaScript needs no compiling, and tsc copies neither it nor its hand-made types. */
function copyGenerated() {
  for (const folder of packageFolders()) {
    const from = path.join(folder, 'src/generated');
    const to = path.join(folder, 'dist/generated');
    const made = existsSync(from) ? readdirSync(from).filter((name) => /(\.js|\.d\.ts)$/.test(name)) : [];
    if (made.length > 0) mkdirSync(to, { recursive: true });
    for (const name of made) copyFileSync(path.join(from, name), path.join(to, name));
  }
}

function copyLicence() {
  for (const folder of packageFolders()) {
    const file = path.join(folder, 'LICENSE');
    if (!existsSync(file)) copyFileSync(path.join(root, 'LICENSE'), file);
  }
}

function checkPromises() {
  const missing = missingOutput().map((file) => path.relative(root, file));
  if (missing.length > 0) throw new Error(`a package.json names files that the build did not make: ${missing.join(', ')}`);
}

const steps = (startedAt) => [
  ['schema', () => runIfPresent('build-schema.mjs', 'buildSchema')],
  ['messages', () => runIfPresent('build-messages.mjs', 'buildMessages')],
  ['sample', () => runIfPresent('build-sample.mjs', 'buildSample')],
  ['compile', compile],
  ['orphans', () => dropOrphans(startedAt)],
  ['copies', copyGenerated],
  ['bundle', () => runIfPresent('build-command-line.mjs', 'buildCommandLine')],
  ['licences', copyLicence],
  ['promises', checkPromises],
];

/** Silent; throws an error that names the step it failed in. */
export async function build() {
  const startedAt = Date.now();
  // Taken first: a source edited while the build runs makes the next one run again.
  const fingerprint = buildFingerprint();
  for (const [step, run] of steps(startedAt)) {
    try {
      await run();
    } catch (error) {
      throw Object.assign(new Error(`The build failed in its step "${step}": ${error.message}`, { cause: error }), { step });
    }
  }
  writeStamp('built', fingerprint);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  try {
    await build();
  } catch (error) {
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
  }
}
