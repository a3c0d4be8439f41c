/** The examples in doc comments are run, so that they cannot rot. */
import path from 'node:path';
import { expect, it } from 'vitest';
import { filesUnder, root, textOf } from '../../../tests/support/repository.js';
import { libraryOf } from '../src/stock/library.js';
import { inventedSituation, inventedSpecies } from './support/invented.js';

/** What an example may use besides what its own file and the package export. */
const SCENE = {
  situation: inventedSituation(),
  library: libraryOf([inventedSpecies('unus-primus')]),
  record: inventedSpecies('unus-primus'),
};

interface Example {
  readonly file: string;
  readonly expression: string;
  /** What the comment behind the expression says it gives, and words after that. */
  readonly said: string;
}

/** The text of each `@example` in a source file, without the stars of the comment. */
const blocksIn = (source: string): string[] =>
  [...source.matchAll(/\/\*\*([\s\S]*?)\*\//g)].flatMap(([, comment = '']) =>
    comment
      .split('\n')
      .map((line) => line.replace(/^\s*\* ?/, ''))
      .join('\n')
      .split(/^@/m)
      .filter((tag) => tag.startsWith('example'))
      .map((tag) => tag.slice('example'.length).trim()),
  );

/** `expression; // value`, over one line or several. */
const examplesIn = (file: string, block: string): Example[] =>
  [...block.matchAll(/([\s\S]+?);\s*\/\/ *(.+)\n?/g)].map(([, expression = '', said = '']) => ({
    file,
    expression: expression.trim(),
    said: said.trim(),
  }));

const files = filesUnder('packages/core/src').filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts'));
const blocks = files.flatMap((file) => blocksIn(textOf(file)).map((block) => ({ file, block })));
const examples = blocks.flatMap(({ file, block }) => examplesIn(file, block));

/** Runs an expression with the names given. */
const run = (expression: string, names: Readonly<Record<string, unknown>>): unknown =>
  new Function(...Object.keys(names), `'use strict'; return (${expression});`)(...Object.values(names));

/** The value at the start of a comment: all of it, or what stands before a colon or a bracket. */
function valueSaid(said: string): unknown {
  for (const text of [said, said.split(': ')[0] as string, said.split(' (')[0] as string]) {
    try {
      return run(text, {});
    } catch {
      // Words follow: cut them off.
    }
  }
  throw new Error(`expected a value, received "${said}"`);
}

/** Numbers as a reader of decimal fractions means them: binary ones differ in the sixteenth digit. */
function asWritten(value: unknown): unknown {
  if (typeof value === 'number') return Number(value.toPrecision(12));
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(asWritten);
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, asWritten(inner)]));
}

it('every example is one that can be run, and there are some', () => {
  expect(examples.length).toBeGreaterThan(15);
  expect(blocks.filter(({ file, block }) => examplesIn(file, block).length === 0)).toEqual([]);
});

for (const { file, expression, said } of examples) {
  it(`${path.relative('packages/core/src', file)}: ${expression.replaceAll(/\s+/g, ' ')} gives ${said}`, async () => {
    const [index, own] = await Promise.all([import('../src/index.js'), import(path.join(root, file))]);
    const value = run(expression, { ...SCENE, ...index, ...own });
    const digits = /^(-?[\d.]+)…/.exec(said)?.[1];
    if (digits === undefined) expect(asWritten(value)).toEqual(asWritten(valueSaid(said)));
    else expect(String(value)).toMatch(new RegExp(`^${digits.replaceAll('.', '\\.')}\\d`));
  });
}
