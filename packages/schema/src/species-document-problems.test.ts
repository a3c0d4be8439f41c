import { describe, expect, it } from 'vitest';
import { speciesDocumentProblems } from './species-document-problems.js';

type Record = Parameters<typeof speciesDocumentProblems>[0];

const record: Record = {
  $schema: 'https://commensal.example/schema/1.0/species.schema.json',
  id: 'exemplum-primum-minus',
  addedIn: '2026.1',
  taxon: { scientificName: 'Exemplum primum minus', genus: 'Exemplum', family: 'Exemplidae' },
  vernacularNames: [{ name: 'first example', language: 'en' }],
  form: 'fish',
  size: { maximum: { value: 11, unit: 'cm', basis: 'measured', source: 'invented-2020' } },
  sources: ['invented-2020'],
};
const texts = (more: Partial<Record>): string[] =>
  speciesDocumentProblems({ ...record, ...more }).map(({ found, allowed, fix }) => `${found}; ${allowed}. ${fix}`);

describe('speciesDocumentProblems', () => {
  it('takes a record whose names and sources agree', () => {
    expect(texts({})).toEqual([]);
  });

  it('compares the id and the genus with the scientific name', () => {
    expect(texts({ id: 'exemplum-primum' })).toEqual([
      'id is "exemplum-primum"; with the scientific name "Exemplum primum minus" it must be "exemplum-primum-minus". Correct the one that is wrong.',
    ]);
    expect(texts({ taxon: { ...record.taxon, genus: 'Exemplar' } })).toEqual([
      'taxon.genus is "Exemplar"; with the scientific name "Exemplum primum minus" it must be "Exemplum". Correct the one that is wrong.',
    ]);
  });

  it('compares the sources used with the sources listed', () => {
    expect(texts({ sources: [] })).toEqual([
      'size.maximum.source is "invented-2020"; the list "sources" of the record must name it. Add it to "sources".',
    ]);
    expect(texts({ sources: ['invented-2020', 'other-1999'] })).toEqual([
      'sources[1] is "other-1999"; no figure of the record names it as its source. Take it out, or name it where it was used.',
    ]);
  });

  it('takes a slip of the pen on either side for one mistake', () => {
    expect(texts({ sources: ['invented-2002'] })).toEqual([
      'size.maximum.source is "invented-2020"; the list "sources" of the record must name it. Did you mean "invented-2002"?',
    ]);
    const weight = { a: 0.01, b: 3, basis: 'measured', source: 'invented-2020' } as const;
    expect(texts({ size: { ...record.size, weight }, sources: ['invented-2002'] })).toEqual([
      'sources[0] is "invented-2002"; no figure of the record names it as its source. Did you mean "invented-2020"?',
    ]);
  });

  it('tells once of a source that many figures name and the list does not', () => {
    const weight = { a: 0.01, b: 3, basis: 'measured', source: 'invented-2020' } as const;
    expect(texts({ size: { ...record.size, weight }, sources: [] })).toEqual([
      'size.maximum.source is "invented-2020", and so is 1 other; the list "sources" of the record must name it. Add it to "sources".',
    ]);
  });

  it('does not look into extensions', () => {
    expect(texts({ extensions: { 'a-vendor': { source: 'our shelf' } } })).toEqual([]);
  });
});
