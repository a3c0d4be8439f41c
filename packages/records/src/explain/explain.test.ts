import { libraryOf } from '@commensal/core';
import type { SpeciesRecord } from '@commensal/schema';
import { bibliography, records, standIns } from '@commensal/species-sample';
import { expect, it } from 'vitest';
import { explain, explainMarkdown, explainText } from './explain.js';
import * as told from './told.js';
import { referencesIn } from '@commensal/report';
import { voiceFor } from './voice-for.js';

const library = libraryOf(records, standIns);
const few = libraryOf(
  records.filter(({ id }) => ['gramma-loreto', 'pterois-volitans'].includes(id)),
  standIns,
);
const of = (id: string): SpeciesRecord => {
  const record = records.find((one) => one.id === id);
  if (record === undefined) throw new Error(`no record ${id}`);
  return record;
};

/** Signs that something was put into a sentence that is no word of it. */
const JUNK = /undefined|NaN|\[object|\bnull\b|\{|\}| {2}| ,| \.|\(\)|: none/;

it('every record of the sample reads whole: no key, no gap, each sentence from capital to stop', () => {
  expect(records.length).toBeGreaterThan(40);
  for (const record of records) {
    const teller = { voice: voiceFor(record, library), references: referencesIn(bibliography), record, growthFrom: 'family' } as const;
    const texts = [
      told.identity(teller),
      told.sizeAndGrowth(teller),
      told.bodyAndMouth(teller),
      told.food(teller),
      told.conduct(teller),
      told.needs(teller),
      told.lifeAndLaw(teller),
    ];
    for (const text of [...texts, told.hazards(teller)]) {
      expect(text, record.id).not.toMatch(JUNK);
      if (text !== '') expect(text, record.id).toMatch(/^\p{Lu}.*\.$/u);
    }
    expect(
      texts.every((text) => text !== ''),
      record.id,
    ).toBe(true);
  }
});

it('each figure stands with what it rests on, and its source is written out at the end', () => {
  const text = explainText(explain(of('gramma-loreto'), few, bibliography)).replaceAll(/\s+/g, ' ');
  expect(text).toContain('(measured; Price et al. 2022)');
  expect(text).toContain('(from memory, unchecked)');
  expect(text).toContain('FishShapes v1');
  expect(text).toMatch(/^Gramma loreto: what is known of it, and how well The /);
});

it('the counts by basis are those of the record', () => {
  const { standings, sections } = explain(of('gramma-loreto'), few, bibliography);
  const measured = Object.values(standings).filter((standing) => standing === 'measured').length;
  const text = sections
    .flat()
    .map((block) => block.text)
    .join('\n');
  expect(measured).toBeGreaterThan(0);
  expect(text).toContain(`${measured} are published for this species`);
});

it('the usual cautions stand with the hazards of the species', () => {
  const text = explainText(explain(of('pterois-volitans'), few, bibliography)).replaceAll(/\s+/g, ' ');
  expect(text).toContain('venomous spines');
  expect(text).toContain('Never set an aquarium animal free');
});

it('reads as Markdown with headings', () => {
  const text = explainMarkdown(explain(of('gramma-loreto'), few, bibliography));
  expect(text).toMatch(/^# Gramma loreto/);
  expect(text).toContain('\n## What the rules can and cannot tell\n');
});
