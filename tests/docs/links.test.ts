/** Links within the repository lead somewhere: to a file that exists, and to a heading in it. */
import { existsSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { documents } from '../../scripts/docs.mjs';
import { root, textOf } from '../support/repository.js';

interface Link {
  readonly from: string;
  readonly target: string;
}

const files = [...documents(), 'CHANGELOG.md'];

const withoutCode = (text: string): string => text.replaceAll(/^```[\s\S]*?^```$/gm, '').replaceAll(/`[^`\n]*`/g, '');

const links: readonly Link[] = files.flatMap((from) =>
  [...withoutCode(textOf(from)).matchAll(/\]\(([^)\s]+)[^)]*\)/g)]
    .map((match) => ({ from, target: match[1] ?? '' }))
    .filter(({ target }) => !/^[a-z]+:/.test(target)),
);

const fileOf = ({ from, target }: Link): string => {
  const [file = ''] = target.split('#');
  return file === '' ? from : path.join(path.dirname(from), file);
};

/** Headings as the sites that show Markdown name them. */
const anchorsIn = (file: string): string[] =>
  [...textOf(file).matchAll(/^#+ (.*)$/gm)].map((match) =>
    (match[1] ?? '')
      .toLowerCase()
      .replaceAll(/[^\p{L}\p{N}\s_-]/gu, '')
      .trim()
      .replaceAll(' ', '-'),
  );

const said = ({ from, target }: Link): string => `${from}: ${target}`;

test('every relative link points to a file that exists', () => {
  expect(links.length).toBeGreaterThan(0);
  expect(links.filter((link) => !existsSync(path.join(root, fileOf(link)))).map(said)).toEqual([]);
});

test('every link to a heading points to one that is there', () => {
  const lost = links.filter((link) => {
    const anchor = link.target.split('#')[1];
    return anchor !== undefined && !anchorsIn(fileOf(link)).includes(anchor);
  });
  expect(lost.map(said)).toEqual([]);
});
