/** What the command line loads: the parts that a command imports, as the build lays them out. */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from '../support/repository.js';

const dist = path.join(root, 'packages/cli/dist');
const parts = readdirSync(path.join(dist, 'parts'));
const textOf = (file: string): string => readFileSync(path.join(dist, file), 'utf8');

/** A file with all that it imports before it runs. */
function loadedWith(file: string, known = new Set<string>()): Set<string> {
  if (known.has(file)) return known;
  known.add(file);
  for (const [, place = ''] of textOf(file).matchAll(/^(?:import|export) (?:\{[^}]*\} from )?"(\.[^"]+)";$/gm))
    loadedWith(path.posix.join(path.posix.dirname(file), place), known);
  return known;
}

/** The sources of files: the build names each before what it made of it. */
const sourcesIn = (files: Iterable<string>): string[] =>
  [...files].flatMap((file) => [...textOf(file).matchAll(/^ *\/\/ ((?:packages|node_modules)\/\S+)$/gm)].map(([, source = '']) => source));

const partOf = (name: string): string => `parts/${parts.find((file) => file.startsWith(`${name}-`)) ?? `no part ${name}`}`;
const start = loadedWith('commensal.js');
const sourcesOf = (name: string): string[] => sourcesIn(loadedWith(partOf(name), new Set(start)));

const of = (sources: readonly string[], place: string): string[] => sources.filter((source) => source.includes(place));

describe('of the command line', () => {
  test('nothing but options and help is there before a command is called', () => {
    const sources = sourcesIn(start);
    expect(of(sources, 'commander')).not.toEqual([]);
    for (const place of ['packages/core', 'packages/records', 'packages/species-sample', 'report/dist/generated', '-validator', 'momoa'])
      expect(of(sources, place), place).toEqual([]);
  });

  test.each(['check', 'plan', 'rules'])('%s loads nothing that is there for records alone, and no sentences', (command) => {
    const sources = sourcesOf(command);
    expect(of(sources, 'packages/species-sample')).not.toEqual([]);
    for (const place of ['papaparse', 'commands/records/check', 'records/dist/problems', 'records/dist/codes', 'records/dist/exchange'])
      expect(of(sources, place), place).toEqual([]);
    for (const place of ['schema/dist/generated/species-validator', 'report/dist/generated/', 'node_modules/wrap-ansi'])
      expect(of(sources, place), place).toEqual([]);
  });

  test('check loads no planning, and plan does', () => {
    expect(of(sourcesOf('check'), 'core/dist/plan/select')).toEqual([]);
    expect(of(sourcesOf('plan'), 'core/dist/plan/select')).not.toEqual([]);
  });

  test.each(['de', 'en', 'ja'])('the sentences of %s are loaded by themselves', (language) => {
    const languages = of(sourcesIn(loadedWith(partOf(language))), 'report/dist/generated/');
    expect(languages).toEqual([`packages/report/dist/generated/${language}.js`]);
  });

  test('commands of records load what they need', () => {
    for (const place of ['papaparse', 'records/dist/problems', 'generated/species-validator'])
      expect(of(sourcesOf('records'), place), place).not.toEqual([]);
  });
});
