import type { CslItem, SpeciesRecord } from '@commensal/schema';
import { bibliography, records, standIns } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { sourcesNamedIn, sourceUse } from './source-use.js';
import { sourcesMarkdown, sourcesText } from './sources-text.js';

const book = (id: string): CslItem => ({
  id,
  type: 'book',
  title: `Of ${id}`,
  author: [{ family: 'Reed' }],
  issued: { 'date-parts': [[1999]] },
});

const record = (id: string, sources: string[], more: Partial<SpeciesRecord> = {}): SpeciesRecord => ({
  $schema: 'https://commensal.example/schema/1.0/species.schema.json',
  id,
  addedIn: '2026.1',
  taxon: { scientificName: 'Unus primus', genus: 'Unus', family: 'Exemplidae' },
  vernacularNames: [{ name: 'example', language: 'en' }],
  form: 'fish',
  sources,
  ...more,
});

const TWO = [
  record('unus-primus', ['reed-1999', 'rede-1999'], {
    size: { maximum: { value: 12, unit: 'cm', basis: 'measured', source: 'reed-1999' } },
    shape: { bodyDepth: { value: 0.3, unit: '1', basis: 'measured', source: 'reed-1999' } },
    needs: { partners: [{ species: 'duo-primus', kind: 'host', optional: true, basis: 'measured', source: 'rede-1999' }] },
  }),
  record('unus-alter', ['reed-1999']),
];

describe('who uses which source', () => {
  const use = sourceUse(TWO, [book('unread'), book('reed-1999'), book('for-rules')], new Set(['for-rules']));

  it('counts figures by record; a key that is only listed counts as used for none', () => {
    expect(use.used).toEqual([
      {
        item: book('reed-1999'),
        figures: 2,
        uses: [
          { record: 'unus-alter', figures: 0 },
          { record: 'unus-primus', figures: 2 },
        ],
      },
    ]);
  });

  it('names what neither records nor anything else uses', () => expect(use.unused).toEqual([book('unread')]));

  it('names keys that lead nowhere, with the nearest there is', () => {
    expect(use.missing).toEqual([{ key: 'rede-1999', uses: [{ record: 'unus-primus', figures: 1 }], near: 'reed-1999' }]);
  });

  it('says so in text and Markdown, with formatted citations', () => {
    for (const text of [sourcesText(use), sourcesMarkdown(use)]) {
      expect(text).toContain('Reed (1999). Of reed-1999.');
      expect(text).toContain('rede-1999: used by unus-primus (1). Did you mean reed-1999?');
      expect(text).toContain('2 figures of 2 records: unus-alter (listed only), unus-primus (2).');
      expect(text).toContain('- unread: Reed (1999). Of unread.');
    }
  });
});

it('no key of the sample leads nowhere, and every figure with a source is counted', () => {
  const use = sourceUse(records, bibliography, sourcesNamedIn(standIns));
  expect(use.missing).toEqual([]);
  const figures = [...JSON.stringify(records).matchAll(/"source":/g)].length;
  expect(figures).toBeGreaterThan(100);
  expect(use.used.reduce((sum, one) => sum + one.figures, 0)).toBe(figures);
});
