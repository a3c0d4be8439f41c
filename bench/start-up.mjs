/** `commensal check` from the shell, over an empty Node process. */
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { goalRow, heading, row } from './table.mjs';

const ROUNDS = 15;

function secondsOf(args, root) {
  const from = performance.now();
  const { status, stderr } = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  // Findings make the exit code 1.
  if (status !== 0 && status !== 1) throw new Error(`bench: ${args.join(' ')} ended with ${status}: ${stderr}`);
  return performance.now() - from;
}

const median = (list) => list.sort((one, other) => one - other)[Math.floor(list.length / 2)];

export function benchStartUp(root) {
  heading('Start from the shell');
  const command = path.join(root, 'packages/cli/dist/commensal.js');
  const ways = { empty: ['-e', '0'], check: [command, 'check', path.join(root, 'examples/lantern-quay.situation.json')] };
  const times = { empty: [], check: [] };
  for (let round = 0; round < ROUNDS; round += 1) for (const [name, args] of Object.entries(ways)) times[name].push(secondsOf(args, root));
  const [empty, check] = [median(times.empty), median(times.check)];
  const show = (number) => `${number.toFixed(0)} ms`;
  row('an empty Node process', show(empty));
  goalRow('commensal check of the example, over that', check - empty, { atMost: 80, show });
}
