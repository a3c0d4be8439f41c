/** The keys that the sources can hand to the catalogue. */
import { rules } from '@commensal/core';
import { filesUnder, textOf } from '../support/repository.js';

const sourcesOf = (name: string): string[] =>
  filesUnder(`packages/${name}/src`)
    .filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'))
    .map(textOf);

export const coreSources: readonly string[] = sourcesOf('core');
export const reportSources: readonly string[] = sourcesOf('report');

/** Every rule that can speak. */
export const allRules = rules;

const heads = [...allRules.map(({ id }) => id), 'order', 'caution', 'change'].join('|');

/** Literals such as 'gape.fitsNow'; a template such as `water.${property}` gives its fixed parts. */
const LITERAL = new RegExp(`'((?:${heads})\\.[\\w.-]+)'`, 'g');
const TEMPLATE = new RegExp(`\`((?:${heads})\\.[^\`]*\\$\\{[^\`]*)\``, 'g');

const found = (pattern: RegExp, texts: readonly string[]): string[] =>
  texts.flatMap((text) => [...text.matchAll(pattern)].map((match) => match[1] ?? ''));

export const keysNamedByCore: readonly string[] = [...new Set(found(LITERAL, coreSources))];

/** As patterns: `water.${property}Unknown` stands for whatever fits. */
export const templatesOfCore: readonly RegExp[] = found(TEMPLATE, coreSources).map(
  (template) => new RegExp(`^${template.replaceAll('.', '\\.').replaceAll(/\$\{[^}]*\}/g, '[\\w-]+')}$`),
);

/** A key that the report package says itself, whole or as a template. */
export function saidByReport(key: string): boolean {
  const literal = new RegExp(`['"\`]${key.replaceAll('.', '\\.')}['"\`]`);
  const templates = reportSources
    .flatMap((text) => [...text.matchAll(/`([a-z]+(?:\.[\w-]+)*\.)\$\{[^`]*\}`/g)])
    .map((match) => match[1] ?? '');
  return reportSources.some((text) => literal.test(text)) || templates.some((head) => key.startsWith(head));
}
