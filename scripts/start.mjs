/** `npm start` plans the example; `npm start -- check my.situation.json` runs any other command. */
import { spawn } from 'node:child_process';
import path from 'node:path';
import { root } from './fingerprint.mjs';
import { ready } from './ready.mjs';

const EXAMPLE = ['plan', path.join('examples', 'lantern-quay.situation.json')];

await ready({ build: true });

const given = process.argv.slice(2);
const child = spawn(process.execPath, [path.join(root, 'packages/cli/dist/commensal.js'), ...(given.length > 0 ? given : EXAMPLE)], {
  // npm moves to the root of the repository; file names are meant from where the person stands.
  cwd: given.length > 0 ? (process.env.INIT_CWD ?? process.cwd()) : root,
  stdio: 'inherit',
});
// An interrupt reaches the command line as well, and it decides how to end.
process.on('SIGINT', () => {});
child.on('error', (error) => {
  process.stderr.write(`The command line could not be started: ${error.message}\n`);
  process.exitCode = 3;
});
child.on('exit', (code, signal) => {
  process.exitCode = code ?? (signal === 'SIGINT' ? 130 : 3);
});
