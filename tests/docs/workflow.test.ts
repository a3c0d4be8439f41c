/** The workflow that the documentation offers: it is YAML, asks for little, pins what it uses, and calls the command as it is. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { fencesIn } from '../../scripts/docs.mjs';
import { root, textOf } from '../support/repository.js';

interface Step {
  readonly uses?: string;
  readonly run?: string;
  readonly if?: string;
  readonly with?: Readonly<Record<string, unknown>>;
}
interface Workflow {
  readonly on: Readonly<Record<string, unknown>>;
  readonly permissions: Readonly<Record<string, string>>;
  readonly jobs: Readonly<Record<string, { readonly permissions?: Readonly<Record<string, string>>; readonly steps: readonly Step[] }>>;
}

const lines = textOf('docs/checking-records.md').split('\n');
const [fence, ...more] = fencesIn(lines).filter(({ info }: { info: string }) => info === 'yaml');
const text = lines.slice(fence?.from, fence?.to).join('\n');
const workflow = parse(text) as Workflow;
const jobs = Object.values(workflow.jobs);
const steps = jobs.flatMap((job) => job.steps);
const commands = steps.flatMap(({ run }) => (run === undefined ? [] : [run]));

describe('the workflow for pull requests', () => {
  test('is the one there is, and runs for them alone', () => {
    expect(more).toEqual([]);
    expect(Object.keys(workflow.on)).toEqual(['pull_request']);
  });

  test('may read, and write code scanning results, and nothing else', () => {
    expect(workflow.permissions).toEqual({ contents: 'read' });
    expect(jobs.map(({ permissions }) => permissions)).toEqual([{ contents: 'read', 'security-events': 'write' }]);
  });

  test('pins every action to a commit and names its version', () => {
    const used = text.split('\n').filter((line) => line.includes('uses:'));
    expect(used.length).toBe(3);
    for (const line of used) expect(line).toMatch(/uses: [\w./-]+@[0-9a-f]{40} # v\d+\.\d+\.\d+$/);
  });

  test('keeps no credentials, and puts no text of a pull request into a shell', () => {
    expect(steps[0]?.with).toMatchObject({ 'persist-credentials': false, 'fetch-depth': 0 });
    expect(commands.length).toBeGreaterThan(3);
    for (const command of commands) expect(command).not.toContain('${{');
  });

  test('calls what there is', () => {
    const scripts: Record<string, string> = JSON.parse(textOf('package.json')).scripts;
    const checks = commands.filter((command) => command.includes('commensal.js'));
    expect(checks.length).toBe(2);
    for (const command of commands) {
      const script = /^npm run (\S+)$/.exec(command)?.[1];
      expect(script === undefined ? command === 'npm ci' || checks.includes(command) : scripts[script] !== undefined).toBe(true);
    }
    const copy = mkdtempSync(path.join(tmpdir(), 'commensal-workflow-'));
    const git = (...args: string[]): number | null =>
      spawnSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@commensal.example', ...args], { cwd: copy, encoding: 'utf8' }).status;
    try {
      spawnSync('cp', ['-r', path.join(root, 'packages'), copy]);
      git('init', '-q', '-b', 'main');
      expect(git('add', 'packages/species-sample')).toBe(0);
      expect(git('commit', '-qm', 'x')).toBe(0);
      expect(git('update-ref', 'refs/remotes/origin/main', 'HEAD')).toBe(0);
      for (const command of checks) {
        const { status, stderr } = spawnSync('sh', ['-ec', command], {
          cwd: copy,
          env: { ...process.env, BASE: 'main' },
          encoding: 'utf8',
        });
        expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
      }
    } finally {
      rmSync(copy, { recursive: true, force: true });
    }
  });
});
