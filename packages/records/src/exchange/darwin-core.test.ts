/**
 * The archive against what is published: the text guide of Darwin Core (TDWG, http://rs.tdwg.org/dwc/terms/guides/text/) for `meta.xml`, the
 * lists of terms of the taxon core, of measurements or facts and of vernacular names (GBIF) for its fields, and read back
 * by parsers of others.
 */
import type { SpeciesRecord } from '@commensal/schema';
import { bibliography, records } from '@commensal/species-sample';
import { parse } from 'csv-parse/sync';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import { describe, expect, it } from 'vitest';
import { darwinCoreArchive } from './darwin-core.js';

const ABOUT = { bibliography, title: 'A & B "records" <1>', creator: 'A club', release: '2026.1', rights: 'CC BY 4.0' };
const archive = darwinCoreArchive(records, ABOUT);
const files = new Map(archive.map(({ name, text }) => [name, text]));
const textOf = (name: string): string => files.get(name) ?? '';

const DWC = 'http://rs.tdwg.org/dwc/terms/';
const DC = 'http://purl.org/dc/terms/';

/** Terms that may stand in a file of each sort, by its row type; those that are not of Darwin Core with their own address. */
const TERMS: Readonly<Record<string, readonly string[]>> = {
  [`${DWC}Taxon`]: [
    'taxonID',
    'scientificNameID',
    'acceptedNameUsageID',
    'parentNameUsageID',
    'originalNameUsageID',
    'nameAccordingToID',
    'namePublishedInID',
    'taxonConceptID',
    'scientificName',
    'acceptedNameUsage',
    'parentNameUsage',
    'originalNameUsage',
    'nameAccordingTo',
    'namePublishedIn',
    'namePublishedInYear',
    'higherClassification',
    'kingdom',
    'phylum',
    'class',
    'order',
    'superfamily',
    'family',
    'subfamily',
    'tribe',
    'subtribe',
    'genus',
    'genericName',
    'subgenus',
    'infragenericEpithet',
    'specificEpithet',
    'infraspecificEpithet',
    'cultivarEpithet',
    'taxonRank',
    'verbatimTaxonRank',
    'scientificNameAuthorship',
    'vernacularName',
    'nomenclaturalCode',
    'taxonomicStatus',
    'nomenclaturalStatus',
    'taxonRemarks',
  ].map((name) => DWC + name),
  [`${DWC}MeasurementOrFact`]: [
    'measurementID',
    'parentMeasurementID',
    'measurementType',
    'verbatimMeasurementType',
    'measurementValue',
    'measurementAccuracy',
    'measurementUnit',
    'measurementDeterminedBy',
    'measurementDeterminedDate',
    'measurementMethod',
    'measurementRemarks',
  ].map((name) => DWC + name),
  'http://rs.gbif.org/terms/1.0/VernacularName': [
    ...['vernacularName', 'locationID', 'locality', 'countryCode', 'sex', 'lifeStage', 'taxonRemarks'].map((name) => DWC + name),
    ...['source', 'language', 'temporal'].map((name) => DC + name),
    ...['isPlural', 'isPreferredName', 'organismPart'].map((name) => `http://rs.gbif.org/terms/1.0/${name}`),
  ],
};

type Xml = { readonly [key: string]: Xml[] & Xml & string };
const parsed = (name: string): Xml =>
  new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: '@',
    isArray: (tag) => ['field', 'extension', 'location'].includes(tag),
  }).parse(textOf(name)) as Xml;

/** A file as `meta.xml` describes it, read by what that says alone. */
interface Described {
  readonly rowType: string;
  readonly location: string;
  readonly idIndex: number;
  readonly terms: ReadonlyMap<number, string>;
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

const LINE_END: Readonly<Record<string, string>> = { '\\r\\n': '\r\n', '\\n': '\n' };

function described(element: Xml, idName: string): Described {
  const location = (element.files as Xml).location?.[0] as unknown as string;
  const rows = parse(textOf(location), {
    delimiter: element['@fieldsTerminatedBy'] as string,
    quote: element['@fieldsEnclosedBy'] as string,
    record_delimiter: LINE_END[element['@linesTerminatedBy'] as string] ?? '',
  }) as string[][];
  const indexed = (element.field as Xml[]).filter((field) => field['@index'] !== undefined);
  return {
    rowType: element['@rowType'] as string,
    location,
    idIndex: Number((element[idName] as Xml)['@index']),
    terms: new Map(indexed.map((field) => [Number(field['@index']), field['@term'] as string])),
    header: rows[0] ?? [],
    rows: rows.slice(Number(element['@ignoreHeaderLines'])),
  };
}

const meta = parsed('meta.xml').archive as Xml;
const core = described(meta.core as Xml, 'id');
const extensions = (meta.extension as Xml[]).map((element) => described(element, 'coreid'));
const describedFiles = [core, ...extensions];
const fileNamed = (location: string): Described => {
  const found = describedFiles.find((file) => file.location === location);
  if (found === undefined) throw new Error(`meta.xml describes no ${location}`);
  return found;
};
/** The rows of a file by the names of its terms. */
const rowsOf = (location: string): Record<string, string>[] => {
  const { rows, terms } = fileNamed(location);
  return rows.map((row) => ({
    core: row[fileNamed(location).idIndex] ?? '',
    ...Object.fromEntries([...terms].map(([index, term]) => [term.split('/').at(-1), row[index] ?? ''])),
  }));
};

describe('meta.xml', () => {
  it('is XML with one core and its extensions in the namespace of the guide', () => {
    expect(XMLValidator.validate(textOf('meta.xml'))).toBe(true);
    expect(meta['@xmlns']).toBe('http://rs.tdwg.org/dwc/text/');
    expect(Object.keys(meta).sort()).toEqual(['@metadata', '@xmlns', 'core', 'extension']);
    expect(core.rowType).toBe(`${DWC}Taxon`);
    expect(extensions.map(({ rowType }) => rowType)).toEqual(['http://rs.gbif.org/terms/1.0/VernacularName', `${DWC}MeasurementOrFact`]);
  });

  it('has in each file what the guide asks for, in its order, and nothing else', () => {
    // The guide: files, then id (core) or coreid (extension), then at least one field; a row type; attributes of those names.
    for (const [element, id] of [[meta.core as Xml, 'id'], ...(meta.extension as Xml[]).map((one) => [one, 'coreid'])] as [Xml, string][]) {
      expect(Object.keys(element).filter((key) => !key.startsWith('@'))).toEqual(['files', id, 'field']);
      expect(
        Object.keys(element)
          .filter((key) => key.startsWith('@'))
          .sort(),
      ).toEqual(['@encoding', '@fieldsEnclosedBy', '@fieldsTerminatedBy', '@ignoreHeaderLines', '@linesTerminatedBy', '@rowType']);
      expect(element['@encoding']).toBe('UTF-8');
      for (const field of element.field as Xml[]) {
        expect(field['@term']).toBeDefined();
        expect(field['@index'] ?? field['@default']).toBeDefined();
        expect(Object.keys(field).filter((key) => !['@index', '@term', '@default'].includes(key))).toEqual([]);
      }
    }
  });

  it('names every file of the archive, and no other', () => {
    expect(describedFiles.map(({ location }) => location).sort()).toEqual([...files.keys()].filter((name) => name.endsWith('.csv')).sort());
    expect(files.has(meta['@metadata'] as string)).toBe(true);
  });

  it('numbers the columns from nought, each once, as the headers have them', () => {
    for (const { terms, header, idIndex, rows } of describedFiles) {
      expect(rows.length).toBeGreaterThan(0);
      expect([...new Set([idIndex, ...terms.keys()])].sort((a, b) => a - b)).toEqual(header.map((_, index) => index));
      for (const [index, term] of terms) expect(term.endsWith(`/${header[index]}`)).toBe(true);
      for (const row of rows) expect(row).toHaveLength(header.length);
    }
  });

  it('knows its terms from the published lists', () => {
    for (const element of [meta.core as Xml, ...(meta.extension as Xml[])]) {
      const known = TERMS[element['@rowType'] as string] ?? [];
      const terms = (element.field as Xml[]).map((field) => field['@term'] as string);
      expect(terms.length).toBeGreaterThan(1);
      expect(terms.filter((term) => !known.includes(term))).toEqual([]);
      expect(new Set(terms).size).toBe(terms.length);
    }
  });
});

describe('the tables', () => {
  it('each core row has an id of its own, and each extension row one of those', () => {
    const ids = core.rows.map((row) => row[core.idIndex] ?? '');
    expect(new Set(ids).size).toBe(ids.length);
    for (const { rows, idIndex } of extensions) for (const row of rows) expect(ids).toContain(row[idIndex]);
  });

  it('hold every record and every synonym once, the synonym with the name that counts', () => {
    const taxa = rowsOf('taxon.csv');
    const accepted = taxa.filter(({ taxonomicStatus }) => taxonomicStatus === 'accepted');
    expect(
      accepted.map(({ taxonID, scientificName, family, genus, scientificNameID }) => ({
        taxonID,
        scientificName,
        family,
        genus,
        scientificNameID,
      })),
    ).toEqual(
      [...records]
        .sort((one, other) => (one.id < other.id ? -1 : 1))
        .map(({ id, taxon }) => ({
          taxonID: id,
          scientificName: taxon.scientificName,
          family: taxon.family,
          genus: taxon.genus,
          scientificNameID: taxon.taxonID ?? '',
        })),
    );
    const synonyms = taxa
      .filter(({ taxonomicStatus }) => taxonomicStatus === 'synonym')
      .map((row) => `${row.acceptedNameUsageID} ${row.scientificName}`);
    const expected = records.flatMap(({ id, synonyms: names = [] }) => names.map((name) => `${id} ${name}`));
    expect(expected.length).toBeGreaterThan(0);
    expect(synonyms.sort()).toEqual(expected.sort());
    expect(taxa).toHaveLength(accepted.length + synonyms.length);
  });

  it('hold every common name once, with its language', () => {
    const expected = records.flatMap(({ id, vernacularNames }) => vernacularNames.map(({ name, language }) => `${id} ${language} ${name}`));
    expect(expected.length).toBeGreaterThan(100);
    expect(
      rowsOf('vernacularname.csv')
        .map((row) => `${row.core} ${row.language} ${row.vernacularName}`)
        .sort(),
    ).toEqual(expected.sort());
  });
});

/** What a record says, walked here once more and otherwise: every number, word and truth value with its figure. */
const META = ['unit', 'interval', 'lengthType', 'per', 'at', 'basis', 'source', 'formula', 'from', 'searched', 'note'];
function leavesOf(record: SpeciesRecord): string[] {
  const leaves: string[] = [];
  const walk = (value: unknown, path: readonly string[], basis: string, source: string): void => {
    if (Array.isArray(value) && !(value.length > 0 && typeof value[0] === 'object')) {
      leaves.push(`${record.id} ${path.join('.')} ${value.length === 0 ? 'none' : value.join(' | ')} ${basis} ${source}`);
    } else if (typeof value === 'object' && value !== null) {
      const own = value as { basis?: string; source?: string };
      const isFigure = own.basis !== undefined;
      for (const [key, member] of Object.entries(value)) {
        if (isFigure && META.includes(key)) continue;
        const step = Array.isArray(value) || key === 'value' ? [] : [key];
        walk(member, [...path, ...step], own.basis ?? basis, isFigure ? (own.source ?? '') : source);
      }
    } else leaves.push(`${record.id} ${path.join('.')} ${String(value)} ${basis} ${source}`);
  };
  const { $schema: _, id: __, taxon: ___, synonyms: ____, vernacularNames: _____, sources: ______, extensions: _______, ...said } = record;
  walk(said, [], '', '');
  return leaves;
}

describe('the round trip', () => {
  const rows = rowsOf('measurementorfact.csv');
  const remark = (row: Record<string, string>, name: string): string =>
    new RegExp(`(?:^| \\| )${name}: (.*?)(?= \\| |$)`).exec(row.measurementRemarks ?? '')?.[1] ?? '';

  it('brings back every figure and word of every record once, with basis and source', () => {
    const expected = records.flatMap(leavesOf);
    expect(expected.length).toBeGreaterThan(4000);
    expect(
      rows
        .map((row) => `${row.core} ${row.measurementType} ${row.measurementValue} ${remark(row, 'basis')} ${remark(row, 'source')}`)
        .sort(),
    ).toEqual(expected.sort());
  });

  it('gives each row an id of its own', () => {
    expect(new Set(rows.map(({ measurementID }) => measurementID)).size).toBe(rows.length);
  });

  it('says unit, length type, stand-in, formula, note and citation', () => {
    const row = (id: string): Record<string, string> | undefined => rows.find(({ measurementID }) => measurementID === id);
    expect(row('gramma-loreto/size.entry.low')).toMatchObject({
      measurementValue: '3.5',
      measurementUnit: 'cm',
      measurementMethod: 'lower end of the central 80 %; length as TL',
      measurementRemarks: 'basis: practice',
    });
    expect(row('gramma-loreto/size.totalPerStandard')).toMatchObject({
      measurementUnit: '1',
      measurementMethod: 'stands in, from its family',
    });
    expect(row('gramma-loreto/shape.bodyDepth')?.measurementRemarks).toMatch(
      /^basis: measured \| source: price-2022 \| citation: Price et al\. \(2022\)/,
    );
    const sources = rows.filter((one) => remark(one, 'source') !== '');
    expect(sources.length).toBeGreaterThan(100);
    expect(sources.filter((one) => /^$|not in the bibliography/.test(remark(one, 'citation')))).toEqual([]);
    expect(rows.some(({ measurementMethod }) => measurementMethod?.includes('computed: '))).toBe(true);
    expect(rows.some((one) => remark(one, 'note') !== '')).toBe(true);
  });

  it('is the same whatever the order of the records', () => {
    expect(darwinCoreArchive([...records].reverse(), ABOUT)).toEqual(archive);
  });
});

describe('eml.xml', () => {
  const { dataset, ...root } = parsed('eml.xml')['eml:eml'] as Xml;

  it('has what Ecological Metadata Language 2.2.0 asks of a data set, in its order', () => {
    expect(XMLValidator.validate(textOf('eml.xml'))).toBe(true);
    expect(root).toEqual({
      '@xmlns:eml': 'https://eml.ecoinformatics.org/eml-2.2.0',
      '@packageId': 'commensal-species-records-2026.1',
      '@system': 'https://commensal.example',
      '@xml:lang': 'en',
    });
    expect(Object.keys(dataset as Xml)).toEqual(['title', 'creator', 'pubDate', 'language', 'abstract', 'intellectualRights', 'contact']);
    expect(dataset).toMatchObject({ title: ABOUT.title, pubDate: 2026, intellectualRights: { para: 'CC BY 4.0' } });
  });

  it('counts what is there', () => {
    const abstract = ((dataset as Xml).abstract as Xml).para as unknown as string;
    const rows = rowsOf('measurementorfact.csv');
    expect(abstract).toContain(`${records.length} species of marine aquarium animals with ${rows.length} measurements and facts`);
    const measured = rows.filter(({ measurementRemarks }) => measurementRemarks?.startsWith('basis: measured')).length;
    expect(abstract).toContain(` ${measured} measured, `);
  });

  it('gives no day where there is no release', () => {
    const { release: _, ...without } = ABOUT;
    const text = darwinCoreArchive(records, without).find(({ name }) => name === 'eml.xml')?.text ?? '';
    expect(text).not.toContain('pubDate');
    expect(text).toContain('packageId="commensal-species-records"');
  });
});

it('asks for a record', () => {
  expect(() => darwinCoreArchive([], ABOUT)).toThrow('darwinCoreArchive: expected at least one record, received none');
});
