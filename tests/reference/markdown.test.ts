/**
 * Markdown says what plain text says, whatever names people give: read by commonmark.js, the reference implementation of the CommonMark
 * specification (J. MacFarlane).
 */
import { checkMarkdown, namesIn, planMarkdown, type Voice } from '@commensal/report';
import { check, libraryOf, plan, rules, stockOf } from '@commensal/core';
import { en } from '@commensal/report/en';
import { records, standIns } from '@commensal/species-sample';
import type { CheckReport, Plan, Situation } from '@commensal/schema';
import { type Node, Parser } from 'commonmark';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { heading, item, line, markdownPage, name, paragraph, type Section, title } from '../../packages/report/src/blocks.js';
import { textOf } from '../support/repository.js';
import { runs } from '../support/runs.js';
import '../support/seed.js';

/** The parts of a document that hold text, each as its kind and the text in it; anything but plain text shows as its kind. */
function partsOf(markdown: string): string[] {
  const parts: string[] = [];
  const walker = new Parser().parse(markdown).walker();
  for (let step = walker.next(); step !== null; step = walker.next()) {
    const { node, entering } = step;
    if (!entering) continue;
    if (node.type === 'heading') parts.push(`h${node.level} `);
    else if (node.type === 'paragraph') parts.push(node.parent?.type === 'item' ? 'item ' : 'paragraph ');
    else if (node.type === 'text') parts.push(`${parts.pop() ?? ''}${node.literal ?? ''}`);
    else if (!['document', 'list', 'item'].includes(node.type)) parts.push(describe(node));
  }
  return parts;
}

const describe = ({ type, literal }: Node): string => `<${type}> ${literal ?? ''}`;

/** Text made mostly of what means something in Markdown. */
const wild = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        ...'\\`*_[]()<>&~|$#+-.!=:"\'{}0123456789 \t\n\u00A0',
        'a',
        'é',
        '漢',
        '&amp;',
        '<b>',
        '](x)',
        '```',
        '---',
        '1. ',
        '  ',
      ),
    ),
    {
      minLength: 1,
      maxLength: 30,
    },
  )
  .map((pieces) => pieces.join(''))
  .filter((text) => text.trim() !== '');

const KINDS = { title, heading, name, paragraph, line, item };
const SHOWN = { title: 'h1', heading: 'h2', name: 'h3', paragraph: 'paragraph', line: 'item', item: 'item' };

test('every block is read as what it is, with its text whole and nothing else in it', () => {
  const block = fc.tuple(fc.constantFrom(...(Object.keys(KINDS) as (keyof typeof KINDS)[])), wild);
  fc.assert(
    fc.property(fc.array(block, { minLength: 1, maxLength: 5 }), (blocks) => {
      const section: Section = blocks.map(([kind, text]) => KINDS[kind](text));
      expect(partsOf(markdownPage([section]))).toEqual(
        blocks.map(([kind, text]) => `${SHOWN[kind]} ${text.replaceAll(/\s+/g, ' ').trim()}`),
      );
    }),
    { numRuns: runs(2000) },
  );
});

const situation: Situation = JSON.parse(textOf('examples/lantern-quay.situation.json'));
const library = libraryOf(records, standIns, 'sample');
const NAME = '<i>*Bosun*</i> [x](y) `z` _1_';

/** The example, its title and its resident called by something that would mean a lot. */
const named: Situation = {
  ...situation,
  title: `1. ${NAME}`,
  residents: (situation.residents ?? []).map((resident) => ({ ...resident, name: NAME })),
};
const versions = { code: '1.2.3', schema: '1.0', data: '2026.1' };

test('a plan and a check of animals with such names hold headings, paragraphs and lists of plain text', () => {
  const planned: Plan = { $schema: 'https://commensal.example/schema/1.0/plan.schema.json', ...plan(named, library), versions };
  const checked: CheckReport = {
    $schema: 'https://commensal.example/schema/1.0/check.schema.json',
    ...check(stockOf(named, library).stock, rules),
    versions,
  };
  const newcomers = planned.introductions.flatMap(({ animals }) => animals);
  const voice: Voice = {
    catalogue: en,
    units: 'metric',
    names: namesIn(named, library, 'en', [...planned.leftOut.map(({ species }) => ({ species })), ...newcomers]),
  };
  for (const markdown of [planMarkdown(voice, named, planned, { notes: true }), checkMarkdown(voice, named, checked, { notes: true })]) {
    const parts = partsOf(markdown);
    expect(parts[0]).toBe(`h1 1. ${NAME}`);
    expect(parts.filter((part) => part.startsWith('<'))).toEqual([]);
    expect(parts.slice(1).some((part) => part.includes(NAME))).toBe(true);
    expect(markdown).not.toMatch(/\n{3}|[ \t]\n|\u00A0/);
  }
});
