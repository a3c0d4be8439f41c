/** Runs the tests; further arguments go to vitest. `--slow` gives the property tests twenty times the usual runs. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { cacheFolder, root } from './fingerprint.mjs';
import { ready } from './ready.mjs';

const SLOW_RUNS = '20000';
const resultFile = path.join(cacheFolder, 'tests.json');

/** A file that does not even load counts as one failure, and so does a run that breaks outside any test. */
function countsOf(status) {
  if (!existsSync(resultFile)) return { passed: 0, failed: 1, skipped: 0 };
  const result = JSON.parse(readFileSync(resultFile, 'utf8'));
  const unloaded = result.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0).length;
  const failed = result.numFailedTests + unloaded;
  return {
    passed: result.numPassedTests,
    failed: status !== 0 && failed === 0 ? 1 : failed,
    skipped: result.numPendingTests + result.numTodoTests,
  };
}

await ready({ build: true });
mkdirSync(cacheFolder, { recursive: true });
rmSync(resultFile, { force: true });

const given = process.argv.slice(2).filter((argument) => argument !== '--slow');
const env = { ...process.env };
if (process.argv.includes('--slow')) env.COMMENSAL_RUNS ??= SLOW_RUNS;

const { status, error } = spawnSync(
  process.execPath,
  [
    path.join(root, 'node_modules/vitest/vitest.mjs'),
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${resultFile}`,
    ...given,
  ],
  { cwd: root, stdio: 'inherit', env },
);
if (error) process.stderr.write(`vitest could not be started: ${error.message}\n`);

const { passed, failed, skipped } = countsOf(status);
process.stdout.write(`\n${passed} passed, ${failed} failed, ${skipped} skipped\n`);
process.exitCode = status ?? 3;
