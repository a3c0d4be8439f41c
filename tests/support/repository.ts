import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The root of the repository. */
export const root: string = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');

export const textOf = (file: string): string => readFileSync(path.join(root, file), 'utf8');

/** What the tests read of a package.json. */
export interface Manifest {
  name: string;
  version: string;
  license: string;
  engines: { node: string };
  scripts?: Record<string, string>;
  dependencies?: Record<string, string>;
  files?: string[];
}

export const manifestOf = (folder: string): Manifest => JSON.parse(textOf(path.join(folder, 'package.json')));

/** `packages/core` and so on, in alphabetical order. */
export const packageFolders: readonly string[] = readdirSync(path.join(root, 'packages'))
  .sort()
  .map((name) => `packages/${name}`);

/** Every file under a folder of the repository, as paths from its root. */
export function filesUnder(folder: string): string[] {
  return readdirSync(path.join(root, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(root, path.join(entry.parentPath, entry.name)))
    .sort();
}
