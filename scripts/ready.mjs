/** Makes a fresh checkout ready to run: installs and builds what is missing or stale, and is silent when nothing is. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildFingerprint, installFingerprint, missingOutput, readStamp, root, writeStamp } from './fingerprint.mjs';

const say = (line) => process.stderr.write(`${line}\n`);

function stop(message) {
  say(message);
  process.exit(3);
}

function checkNode() {
  const { engines } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
  const [major, minor] = engines.node.match(/\d+/g).map(Number);
  const [hasMajor, hasMinor] = process.versions.node.split('.').map(Number);
  if (hasMajor < major || (hasMajor === major && hasMinor < minor)) {
    stop(
      `Commensal needs Node ${major}.${minor} or newer; this is Node ${process.versions.node}. Install a newer Node from https://nodejs.org and try again.`,
    );
  }
}

/** True where npm itself has put in exactly what the lock file names; packages for other platforms are left out. */
function installedByHand() {
  const installed = path.join(root, 'node_modules/.package-lock.json');
  if (!existsSync(installed)) return false;
  const { packages: has } = JSON.parse(readFileSync(installed, 'utf8'));
  const { packages: wanted } = JSON.parse(readFileSync(path.join(root, 'package-lock.json'), 'utf8'));
  return Object.entries(wanted).every(
    ([place, entry]) =>
      !place.includes('node_modules/') ||
      (has[place] === undefined
        ? entry.optional === true
        : has[place].version === entry.version && has[place].integrity === entry.integrity),
  );
}

function install() {
  const wanted = installFingerprint();
  if (existsSync(path.join(root, 'node_modules/.package-lock.json')) && readStamp('installed') === wanted) return;
  if (!installedByHand()) {
    say('Installing packages (first time only)…');
    // Under `npm start` npm names itself; on Windows the bare command is a script that only a shell can start.
    const npm = process.env.npm_execpath?.endsWith('.js') ? [process.execPath, process.env.npm_execpath] : ['npm'];
    const [command, ...first] = npm;
    const result = spawnSync(command, [...first, 'ci', '--no-audit', '--no-fund'], {
      cwd: root,
      encoding: 'utf8',
      shell: command === 'npm' && process.platform === 'win32',
    });
    if (result.error) stop(`npm could not be started (${result.error.message}). It comes with Node; check that it is on the PATH.`);
    if (result.status !== 0) stop(`${result.stdout}${result.stderr}\nThe packages could not be installed; npm's own words are above.`);
  }
  writeStamp('installed', wanted);
}

async function build() {
  if (readStamp('built') === buildFingerprint() && missingOutput().length === 0) return;
  say('Building…');
  try {
    const steps = await import('./build.mjs');
    await steps.build();
  } catch (error) {
    stop(error.step ? error.message : `The build stopped: ${error.stack}`);
  }
}

/** Ends the process with code 3 and a message when it cannot. */
export async function ready(wanted = { build: true }) {
  checkNode();
  install();
  if (wanted.build) await build();
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await ready({ build: !process.argv.includes('--install-only') });
