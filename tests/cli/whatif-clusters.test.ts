/** What is handed to others that run shards: GNU parallel, Kubernetes. Slurm has a test of its own. */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Job } from 'kubernetes-types/batch/v1.js';
import { expect, test } from 'vitest';
import { bundle, commensal, folder } from './command.js';
import { hawkfishStudy } from './whatif-study.js';

writeFileSync(path.join(folder, 'study.json'), JSON.stringify(hawkfishStudy()));
const bytesIn = (of: string): string[] =>
  readdirSync(path.join(folder, of))
    .sort()
    .map((name) => `${name} ${readFileSync(path.join(folder, of, name)).toString('base64')}`);

const hasParallel = spawnSync('parallel', ['--version'], { encoding: 'utf8' }).stdout?.startsWith('GNU parallel') === true;
if (!hasParallel && process.env.CI === 'true') throw new Error('GNU parallel is not installed (Debian package parallel)');

test.skipIf(!hasParallel)('GNU parallel runs shards into one folder, and resumes by its own log', () => {
  expect(commensal(['whatif', 'study.json', '--out', 'alone']).code).toBe(0);
  const line = `seq 4 | parallel --will-cite --joblog log.txt --resume -j 2 '${process.execPath} ${bundle} whatif study.json --out split --shard {}/4 --workers 1 --resume'`;
  for (const time of ['first', 'again']) {
    const { status, stderr } = spawnSync('sh', ['-c', line], { cwd: folder, encoding: 'utf8' });
    expect(status, `${time}: ${stderr}`).toBe(0);
  }
  expect(bytesIn('split')).toEqual(bytesIn('alone'));
  // A head and four jobs: nothing ran twice.
  expect(readFileSync(path.join(folder, 'log.txt'), 'utf8').trim().split('\n')).toHaveLength(5);
});

test('the job of Kubernetes is one by the published types, and its command runs', () => {
  const { code, out } = commensal(['whatif', 'study.json', '--out', 'pods', '--print-kubernetes', '2', '--format', 'csv']);
  expect(code).toBe(0);
  const job = JSON.parse(out) as Job;
  const { completions, parallelism, completionMode, template } = job.spec ?? {};
  expect([job.apiVersion, job.kind, completions, parallelism, completionMode]).toEqual(['batch/v1', 'Job', 2, 2, 'Indexed']);
  const [container] = template?.spec?.containers ?? [];
  expect(template?.spec?.restartPolicy).toBe('OnFailure');
  const [shell = '', flag = '', script = ''] = container?.command ?? [];
  // A job is refused unless every mount has its volume.
  expect(container?.volumeMounts?.map(({ name }) => name)).toEqual(template?.spec?.volumes?.map(({ name }) => name));
  for (const index of ['0', '1']) {
    const command = script.replace('exec commensal', `exec ${process.execPath} ${bundle}`);
    const { status, stderr } = spawnSync(shell, [flag, command], {
      cwd: folder,
      env: { ...process.env, JOB_COMPLETION_INDEX: index },
      encoding: 'utf8',
    });
    expect(status, stderr).toBe(0);
  }
  expect(commensal(['whatif', '--merge', 'pods']).code).toBe(0);
});
