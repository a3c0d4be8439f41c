/** Pages of the documentation that are made, not written: compared with what they are made from, or written anew. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { root } from './fingerprint.mjs';

/**
 * Holds a folder against the pages that belong into it, by their names, or puts it right. Returns what was not as it should be;
 * `source` says what a page is about.
 */
export function holdPages(place, pages, source, { fix }) {
  const folder = path.join(root, place);
  const problems = [];
  if (fix) mkdirSync(folder, { recursive: true });
  for (const [name, text] of pages) {
    const file = path.join(folder, name);
    if (existsSync(file) && readFileSync(file, 'utf8') === text) continue;
    problems.push(`${place}/${name} is not what the ${source} says`);
    if (fix) writeFileSync(file, text);
  }
  for (const name of existsSync(folder) ? readdirSync(folder) : []) {
    if (pages.has(name)) continue;
    problems.push(`${place}/${name} is about no ${source}`);
    if (fix) rmSync(path.join(folder, name));
  }
  return { pages: pages.size, problems };
}
