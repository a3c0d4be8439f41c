/** A study handed to a real Slurm: shards as an array, one of them killed and run again, the summary behind them. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, expect, test } from 'vitest';
import { bundle } from '../cli/command.js';
import { hawkfishStudy } from '../cli/whatif-study.js';
import { type Slurm, startSlurm, whyNoSlurm } from './slurm.js';

const why = whyNoSlurm();
// On a user's machine it may be missing; where changes are taken it may not.
if (why !== undefined && process.env.CI === 'true') throw new Error(`Slurm cannot be started: ${why}`);

const folder = mkdtempSync(path.join(tmpdir(), 'commensal-cluster-'));
let slurm: Slurm | undefined;
afterAll(async () => {
  await slurm?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const SHARDS = 8;
/** Parts that a study of this size is cut into. */
const BLOCKS = 64;
const SCENARIOS = 262_144;

function commensal(args: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync(process.execPath, [bundle, ...args], { cwd: folder, encoding: 'utf8' });
  expect(status, stderr).toBe(0);
  return stdout;
}

/** Runs what it is given; the first time for shard 3, that is killed once it has made a part, as a machine that dies would end it. */
const FAILING_MACHINE = `
case "$*" in *"--shard 3/${SHARDS}"*) ;; *) exec "$@" ;; esac
mark="$(dirname "$0")/died"
if [ -e "$mark" ]; then exec "$@"; fi
"$@" &
child=$!
first=$(printf '%s/split/part-%08d.parquet' "$(dirname "$0")" ${(2 * BLOCKS) / SHARDS})
while [ ! -e "$first" ]; do sleep 0.02; done
kill -KILL $child && touch "$mark"
wait $child
`;

const partsIn = (of: string): string[] =>
  readdirSync(path.join(folder, of))
    .filter((name) => name.startsWith('part-'))
    .sort();

test.skipIf(why !== undefined)(
  'eight shards, one killed and run again, and their summary are the run on one machine',
  async () => {
    slurm = await startSlurm();
    const study = { ...hawkfishStudy(), design: { kind: 'sobol', scenarios: SCENARIOS } };
    writeFileSync(path.join(folder, 'study.json'), JSON.stringify(study));
    commensal(['whatif', 'study.json', '--out', 'alone', '--workers', '2']);
    commensal(['whatif', '--merge', 'alone', '--format', 'json', '--out', 'alone.json']);

    writeFileSync(
      path.join(folder, 'hand-over.sh'),
      commensal(['whatif', 'study.json', '--out', 'split', '--print-slurm', String(SHARDS)]),
    );
    writeFileSync(path.join(folder, 'commensal.sh'), FAILING_MACHINE);
    const env = { ...slurm.env, COMMENSAL: `sh ${path.join(folder, 'commensal.sh')} ${process.execPath} ${bundle}` };
    const handed = spawnSync('sh', ['hand-over.sh'], { cwd: folder, env, encoding: 'utf8' });
    expect(handed.status, handed.stderr).toBe(0);
    const array = handed.stdout.trim().split('\n').at(-1) ?? '';

    const states = (): string => (slurm as Slurm).run('squeue', ['--noheader', '--array', '--format=%i %T', '--states=all']);
    const until = async (isSo: () => boolean): Promise<void> => {
      for (let look = 0; look < 600 && !isSo(); look += 1) await wait(200);
      expect(isSo(), states()).toBe(true);
    };
    await until(() => existsSync(path.join(folder, 'died')) && /FAILED|PENDING/.test(lineOf(states(), `${array}_3`)));
    expect(partsIn('split').length).toBeLessThan(BLOCKS);
    // As it is set up, Slurm queues it again by itself, two minutes later, or leaves that to a person.
    await until(() => {
      if (!lineOf(states(), `${array}_3`).includes('FAILED')) return true;
      // Refused while what is left of it is being tidied up.
      spawnSync('scontrol', ['requeue', `${array}_3`], { env });
      return false;
    });
    spawnSync('scontrol', ['update', `JobId=${array}_3`, 'StartTime=now'], { env });
    await until(() => lineOf(states(), `${array}_3`).includes('COMPLETED') && !/RUNNING|PENDING|COMPLETING/.test(states()));
    if (!existsSync(path.join(folder, 'split', 'summary.json'))) {
      // It came before the shard was back: then it says what is missing, and is asked for again.
      expect(readFileSync(path.join(folder, 'split', 'slurm-merge.log'), 'utf8')).toContain('parts-missing');
      commensal(['whatif', '--merge', 'split', '--format', 'json', '--out', 'split/summary.json']);
    }

    expect(partsIn('split')).toEqual(partsIn('alone'));
    expect(partsIn('alone')).toHaveLength(BLOCKS);
    for (const part of partsIn('alone')) {
      expect(readFileSync(path.join(folder, 'split', part)).equals(readFileSync(path.join(folder, 'alone', part))), part).toBe(true);
    }
    expect(readFileSync(path.join(folder, 'split', 'summary.json'), 'utf8')).toBe(readFileSync(path.join(folder, 'alone.json'), 'utf8'));
  },
  240_000,
);

const lineOf = (states: string, job: string): string => states.split('\n').find((line) => line.startsWith(`${job} `)) ?? '';
