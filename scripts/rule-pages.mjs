/**
 * A page of the documentation for every rule, made from the rule itself. `npm run docs` writes them; a test compares, with the
 * same function, so that a page cannot fall behind its rule.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { root } from './fingerprint.mjs';

const folder = path.join(root, 'docs/rules');

/** Compares the pages with the rules, or writes them anew. Returns what was not as it should be. */
export async function rulePages({ fix }) {
  const { describeRule, rules } = await import('@commensal/core');
  const { cited, rulePage } = await import('@commensal/report');
  const { en } = await import('@commensal/report/en');
  const { bibliography } = await import('@commensal/species-sample');
  const cite = (key) => {
    const item = bibliography.find((entry) => entry.id === key);
    if (item === undefined) throw new Error(`no bibliography entry has the id "${key}"`);
    return cited(item);
  };
  const described = rules.map(describeRule);
  const pages = new Map(described.map((rule) => [`${rule.id}.md`, rulePage(en, rule, cite)]));
  pages.set('index.md', ['# The rules', '', ...described.map(({ id, question }) => `- [${id}](${id}.md): ${question}`), ''].join('\n'));

  const problems = [];
  if (fix) mkdirSync(folder, { recursive: true });
  for (const [name, text] of pages) {
    const file = path.join(folder, name);
    if (existsSync(file) && readFileSync(file, 'utf8') === text) continue;
    problems.push(`docs/rules/${name} is not what the rule says`);
    if (fix) writeFileSync(file, text);
  }
  for (const name of existsSync(folder) ? readdirSync(folder) : []) {
    if (pages.has(name)) continue;
    problems.push(`docs/rules/${name} is about no rule`);
    if (fix) rmSync(path.join(folder, name));
  }
  return { pages: pages.size, problems };
}
