/** Whether what is installed and what is built belongs to what is in the working tree. Plain Node: used before anything is installed. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '..');
export const cacheFolder = path.join(root, 'node_modules/.cache/commensal');

const SOURCE_FOLDERS = ['src', 'source', 'messages', 'records'];
const SKIPPED_FOLDERS = new Set(['generated', 'dist', 'node_modules']);

export const packageFolders = () =>
  readdirSync(path.join(root, 'packages'))
    .filter((name) => existsSync(path.join(root, 'packages', name, 'package.json')))
    .sort()
    .map((name) => path.join(root, 'packages', name));

function filesUnder(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const file = path.join(folder, entry.name);
    if (entry.isDirectory()) return SKIPPED_FOLDERS.has(entry.name) ? [] : filesUnder(file);
    return entry.name.endsWith('.test.ts') ? [] : [file];
  });
}

const filesIn = (folder, pattern) =>
  readdirSync(folder)
    .filter((name) => pattern.test(name))
    .map((name) => path.join(folder, name));

/** Everything that the built output is made from. */
export function buildInputs() {
  return [
    ...packageFolders().flatMap((folder) => [
      ...SOURCE_FOLDERS.flatMap((name) => filesUnder(path.join(folder, name))),
      ...filesIn(folder, /\.json$/),
    ]),
    ...filesIn(path.join(root, 'scripts'), /\.mjs$/),
    ...filesIn(root, /^tsconfig.*\.json$/),
  ].sort();
}

/** By name and content, not by time: a checkout, a copy and a touched file count as unchanged. */
export function buildFingerprint() {
  const hash = createHash('sha256');
  for (const file of buildInputs()) {
    const content = readFileSync(file);
    hash.update(`${path.relative(root, file)}\0${content.length}\0`).update(content);
  }
  return hash.digest('hex');
}

export const installFingerprint = () =>
  createHash('sha256')
    .update(readFileSync(path.join(root, 'package-lock.json')))
    .digest('hex');

export function readStamp(name) {
  const file = path.join(cacheFolder, name);
  return existsSync(file) ? readFileSync(file, 'utf8') : '';
}

export function writeStamp(name, value) {
  mkdirSync(cacheFolder, { recursive: true });
  writeFileSync(path.join(cacheFolder, name), value);
}

/** The built files that a package promises in its package.json: `bin` and the fixed paths of `exports`. */
export function promisedFiles(folder) {
  const { exports: entries = {}, bin = {} } = JSON.parse(readFileSync(path.join(folder, 'package.json'), 'utf8'));
  return [...Object.values(entries).flatMap((entry) => (typeof entry === 'string' ? entry : Object.values(entry))), ...Object.values(bin)]
    .filter((target) => target.startsWith('./dist/') && !target.includes('*'))
    .map((target) => path.join(folder, target));
}

export const missingOutput = () =>
  packageFolders()
    .flatMap(promisedFiles)
    .filter((file) => !existsSync(file));
