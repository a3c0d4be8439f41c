/**
 * A page of the documentation for every rule, made from the rule itself. `npm run docs` writes them; a test compares, with the
 * same function, so that a page cannot fall behind its rule.
 */
import { holdPages } from './pages.mjs';

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
  return holdPages('docs/rules', pages, 'rule', { fix });
}
