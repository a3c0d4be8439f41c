/**
 * Runs the command of its arguments with a standard output that takes no more once it is full, reads nothing for a second, then
 * prints what came and ends with the command's exit code. After `leave` the reader goes away instead of reading.
 */
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, constants, mkdtempSync, openSync, rmSync } from 'node:fs';
import { Socket } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';

const leaves = process.argv[2] === 'leave';
const command = process.argv.slice(leaves ? 3 : 2);
const folder = mkdtempSync(path.join(tmpdir(), 'commensal-pipe-'));
const fifo = path.join(folder, 'fifo');
spawnSync('mkfifo', [fifo]);
const reader = openSync(fifo, constants.O_RDONLY | constants.O_NONBLOCK);
const writer = openSync(fifo, constants.O_WRONLY | constants.O_NONBLOCK);
// Node makes what it hands on as standard output wait; a shell hands it on as it is.
const child = spawn('sh', ['-c', 'exec "$0" "$@" >&3', ...command], { stdio: ['ignore', 'inherit', 'inherit', writer] });
closeSync(writer);
await new Promise((resolve) => setTimeout(resolve, 1000));
const hasExited = once(child, 'exit');
if (leaves) closeSync(reader);
else {
  const socket = new Socket({ fd: reader });
  socket.pipe(process.stdout);
  await once(socket, 'end');
}
await hasExited;
rmSync(folder, { recursive: true });
process.exitCode = child.exitCode ?? 3;
