/** The code that the documentation shows runs and prints what the documentation says it prints. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { checkDocuments, documents, fencesIn, wantedLines } from '../../scripts/docs.mjs';

test('every block of the documentation prints what it says', () => {
  const { blocks, problems } = checkDocuments({ fix: false });
  expect(problems).toEqual([]);
  expect(blocks).toBeGreaterThan(0);
});

describe('the runner', () => {
  let folder = '';
  const readme = (): string => readFileSync(path.join(folder, 'README.md'), 'utf8');
  const write = (text: string): void => writeFileSync(path.join(folder, 'README.md'), text);
  const check = (fix = false) => checkDocuments({ fix, folder });
  const block = (code: string, output: string, language = 'js'): string =>
    `Before.\n\n\`\`\`${language} run\n${code}\n\`\`\`\n\n\`\`\`text output\n${output}\n\`\`\`\n\nAfter.\n`;

  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'commensal-docs-test-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  test('reads the documents at the root, of the packages and in docs, at any depth', () => {
    for (const file of ['README.md', 'DEVELOPERS.md', 'NOTES.md', 'packages/core/README.md', 'docs/a.md', 'docs/deep/b.md', 'docs/c.txt']) {
      mkdirSync(path.join(folder, path.dirname(file)), { recursive: true });
      writeFileSync(path.join(folder, file), '');
    }
    expect(documents(folder)).toEqual(['DEVELOPERS.md', 'README.md', 'docs/a.md', 'docs/deep/b.md', 'packages/core/README.md']);
  });

  test('finds nothing wrong where the output is right', () => {
    write(block("console.log('one\\ntwo');", 'one\ntwo'));
    expect(check()).toEqual({ blocks: 1, repaired: 0, problems: [] });
  });

  test('runs modules that import the packages', () => {
    write(block("import { convert } from '@commensal/core';\nconsole.log(convert(1, '[in_i]', 'cm'));", '2.54'));
    expect(check().problems).toEqual([]);
  });

  test('runs the command line that was built', () => {
    write(block('commensal rules gape | head -1', 'gape', 'sh'));
    expect(check().problems).toEqual([]);
  });

  test('says where the output is wrong, and leaves the file alone', () => {
    const text = block("console.log('new');", 'old');
    write(text);
    expect(check().problems).toEqual(['README.md:7 prints something else:\nnew']);
    expect(readme()).toBe(text);
  });

  test('puts the output right, and nothing else', () => {
    write(block("console.log('new');", 'old') + block("console.log('1\\n2');", '', 'js'));
    expect(check(true)).toEqual({ blocks: 2, repaired: 2, problems: [] });
    expect(readme()).toBe(block("console.log('new');", 'new') + block("console.log('1\\n2');", '1\n2', 'js'));
    expect(check()).toEqual({ blocks: 2, repaired: 0, problems: [] });
  });

  test('tells of a block that fails, whether or not it repairs', () => {
    write(block("throw new Error('broken');", ''));
    for (const fix of [false, true])
      expect(check(fix).problems).toEqual([expect.stringMatching(/^README\.md:3 it ended with 1: [\s\S]*broken/)]);
  });

  test('tells of a shell command that fails in the middle', () => {
    write(block('false\necho done', 'done', 'sh'));
    expect(check().problems).toEqual([expect.stringMatching(/^README\.md:3 it ended with 1/)]);
  });

  test('tells of a block without output, and of output without a block', () => {
    write('```js run\n1;\n```\n\n```js\n2;\n```\n\n```text output\n3\n```\n');
    expect(check().problems).toEqual([
      'README.md:1 a block that is run needs a block "text output" after it',
      'README.md:9 an output block without a block that is run before it',
    ]);
  });

  test('finds it wrong that there is no block at all', () => {
    write('```js\n1;\n```\n');
    expect(check()).toEqual({ blocks: 0, repaired: 0, problems: ['no block is marked "js run" or "sh run"'] });
  });
});

test('a longer fence holds shorter ones', () => {
  expect(fencesIn(['````md', '```js run', '```', '````', '```text output', 'x', '```'])).toEqual([
    { info: 'md', from: 1, to: 3 },
    { info: 'text output', from: 5, to: 6 },
  ]);
});

describe('what an output block should hold', () => {
  const printed = ['1', '2', '3', '4'];
  test.each([
    ['nothing yet', [], printed],
    ['other lines', ['x'], printed],
    ['the first lines', ['1', '2', '...'], ['1', '2', '...']],
    ['first lines that changed', ['x', '...'], ['1', '...']],
    ['the last lines', ['...', '4'], ['...', '4']],
    ['last lines that changed', ['...', 'x', 'y'], ['...', '3', '4']],
    ['lines from the middle', ['...', '2', '3', '...'], ['...', '2', '3', '...']],
    ['lines from the middle of which the second changed', ['...', '2', 'x', '...'], ['...', '2', '3', '...']],
    ['lines from the middle that are gone', ['...', 'x', '...'], undefined],
  ])('where it holds %s', (_, held, wanted) => expect(wantedLines(held, printed)).toEqual(wanted));
});
