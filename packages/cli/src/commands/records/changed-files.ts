import { spawnSync } from 'node:child_process';
import { realpathSync } from 'node:fs';
import path from 'node:path';
import { badCall, Broken } from '../../failure.js';

/** What a branch may have been taken from, the likeliest first. */
const MAIN_LINES = ['upstream/HEAD', 'upstream/main', 'origin/HEAD', 'origin/main', 'origin/master', 'main', 'master', '@{upstream}'];

/** Output of git; undefined where git says no. */
function git(args: readonly string[], folder = '.'): string | undefined {
  const { status, stdout, error, signal } = spawnSync('git', ['-C', folder, ...args], { encoding: 'utf8', maxBuffer: 2 ** 28 });
  if (error !== undefined) {
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    throw new Broken(missing ? '--changed asks git what has changed, and there is no git on this machine.' : `git: ${error.message}`);
  }
  if (signal !== null) throw new Broken(`git was ended by ${signal}.`);
  return status === 0 ? stdout : undefined;
}

const commitOf = (ref: string): string | undefined =>
  git(['rev-parse', '--verify', '--quiet', '--end-of-options', `${ref}^{commit}`])?.trim();

/** The commit that files are compared with: where the branch left `ref`, or the main line where no ref is named. */
function baseOf(ref: string | true): string {
  if (commitOf('HEAD') === undefined) {
    throw badCall(
      'no-commit',
      'this git repository has no commit yet',
      '--changed compares with one',
      'Commit something, or check without --changed.',
    );
  }
  const names = ref === true ? MAIN_LINES : [ref];
  const from = names.map(commitOf).find((commit) => commit !== undefined);
  if (from === undefined) {
    throw ref === true
      ? badCall(
          'no-main-line',
          `this git repository has none of ${MAIN_LINES.join(', ')}`,
          '--changed compares with one',
          'Name what to compare with: --changed=REF.',
        )
      : badCall(
          'no-such-commit',
          `"${ref}" is no commit, branch or tag of this git repository`,
          '--changed compares with one',
          'Write --changed=REF, and files and folders in front of a --changed without one.',
        );
  }
  // In a shallow copy the two may have no commit in common.
  return git(['merge-base', from, 'HEAD'])?.trim() ?? from;
}

const namesIn = (output: string | undefined): string[] => (output ?? '').split('\0').filter((name) => name !== '');

/**
 * Tells of a file whether it has changed against a commit, or is new to git; what git ignores has not. `ref` is a commit, a branch or
 * a tag; with `true` it is what the branch was taken from.
 *
 * @throws BadInput where the folder is in no repository or there is no such commit; Broken where there is no git.
 */
export function changedSince(ref: string | true): (file: string) => boolean {
  const top = git(['rev-parse', '--show-toplevel'])?.replace(/\r?\n$/, '');
  if (top === undefined) {
    throw badCall(
      'no-repository',
      'this folder is in no git repository that git would read',
      '--changed asks git what has changed',
      'Go into the repository, or check without --changed.',
    );
  }
  const base = baseOf(ref);
  const changed = git(['diff', '--name-only', '-z', '--no-renames', '--no-ext-diff', '--diff-filter=d', base, '--'], top);
  if (changed === undefined) throw new Broken(`git cannot compare with ${base}.`);
  const untracked = git(['ls-files', '--others', '--exclude-standard', '-z'], top);
  const root = realpathSync(top);
  const files = new Set([...namesIn(changed), ...namesIn(untracked)].map((name) => path.join(root, name)));
  return (file) => {
    try {
      // A link counts by its own place: that is what git has.
      return files.has(path.join(realpathSync(path.dirname(file)), path.basename(file))) || files.has(realpathSync(file));
    } catch {
      return false;
    }
  };
}
