import { cited } from '@commensal/report';
import type { Bibliography, SpeciesRecord } from '@commensal/schema';
import { type Fact, factsOf } from './facts.js';
import { csvText, type Table } from './table.js';
import { type Element, xmlText } from './xml.js';

/** A file of an archive. */
export interface ArchiveFile {
  readonly name: string;
  readonly text: string;
}

/** What the records cannot say of themselves as a set. */
export interface ArchiveFacts {
  readonly bibliography: Bibliography;
  readonly title: string;
  /** Who answers for the records. */
  readonly creator: string;
  /** Release of the data, such as "2026.1", where there is one. */
  readonly release?: string | undefined;
  /** Under which licence they may be used, in a sentence. */
  readonly rights: string;
}

const DWC = 'http://rs.tdwg.org/dwc/terms/';
const DC = 'http://purl.org/dc/terms/';

/** A column of a file: its name in the header and the address of the term. */
type Column = readonly [name: string, term: string];
const dwc = (name: string): Column => [name, DWC + name];

/** A file that the archive describes; what holds for all its rows has no column. */
interface DataFile {
  readonly name: string;
  readonly rowType: string;
  readonly columns: readonly Column[];
  readonly constants: readonly (readonly [term: string, value: string])[];
  readonly table: Table;
}

const dataFile = (
  name: string,
  rowType: string,
  columns: readonly Column[],
  constants: DataFile['constants'],
  rows: Table['rows'],
): DataFile => ({ name, rowType, columns, constants, table: { columns: columns.map(([column]) => column), rows } });

const TAXON: readonly Column[] = [
  'taxonID',
  'scientificNameID',
  'acceptedNameUsageID',
  'scientificName',
  'scientificNameAuthorship',
  'order',
  'family',
  'genus',
  'specificEpithet',
  'infraspecificEpithet',
  'taxonRank',
  'taxonomicStatus',
].map(dwc);

function taxonRows({ id, taxon, synonyms = [] }: SpeciesRecord): string[][] {
  const [, species = '', within = ''] = taxon.scientificName.split(' ');
  const own = [
    id,
    taxon.taxonID ?? '',
    id,
    taxon.scientificName,
    taxon.scientificNameAuthorship ?? '',
    taxon.order ?? '',
    taxon.family,
    taxon.genus,
    species,
    within,
    within === '' ? 'species' : 'subspecies',
    'accepted',
  ];
  // Of a synonym no more is known than the name: its rank and family are those of its own time.
  return [own, ...synonyms.map((name, index) => [`${id}/synonym-${index + 1}`, '', id, name, '', '', '', '', '', '', '', 'synonym'])];
}

const VERNACULAR: readonly Column[] = [dwc('taxonID'), dwc('vernacularName'), ['language', `${DC}language`]];

const MEASUREMENT: readonly Column[] = [
  'taxonID',
  'measurementID',
  'measurementType',
  'measurementValue',
  'measurementUnit',
  'measurementMethod',
  'measurementRemarks',
].map(dwc);

/** What an end of a band bounds. */
const BOUNDS: Readonly<Record<string, string>> = { 'central-80': 'the central 80 %', range: 'the whole observed range' };

function methodOf({ path, grounds }: Fact): string {
  const { lengthType, per, at, formula, from, interval = 'central-80' } = grounds;
  const end = /\.(low|high)$/.exec(path)?.[1];
  return [
    end === undefined || grounds.unit === undefined ? '' : `${end === 'low' ? 'lower' : 'upper'} end of ${BOUNDS[interval] ?? interval}`,
    lengthType === undefined ? '' : `length as ${lengthType}`,
    per === undefined ? '' : `share of ${per}`,
    at === undefined ? '' : `at ${at} size`,
    formula === undefined ? '' : `computed: ${formula}`,
    from === undefined ? '' : `stands in, from its ${from}`,
  ]
    .filter((part) => part !== '')
    .join('; ');
}

function remarksOf({ grounds }: Fact, cite: (key: string) => string): string {
  const { basis, source, searched, note } = grounds;
  return [
    basis === undefined ? '' : `basis: ${basis}`,
    source === undefined ? '' : `source: ${source}`,
    source === undefined ? '' : `citation: ${cite(source)}`,
    searched === undefined ? '' : `searched: ${searched}`,
    note === undefined ? '' : `note: ${note}`,
  ]
    .filter((part) => part !== '')
    .join(' | ');
}

function measurementRows(record: SpeciesRecord, cite: (key: string) => string): string[][] {
  return factsOf(record).map((fact) => {
    const { path, value, grounds } = fact;
    return [
      record.id,
      `${record.id}/${path}`,
      // Entries of a list are told apart by their ids; what sort of thing they are does not hang on their place.
      path.replaceAll(/\[\d+\]/g, ''),
      String(value),
      typeof value === 'number' ? (grounds.unit ?? '') : '',
      methodOf(fact),
      remarksOf(fact, cite),
    ];
  });
}

function fileElement(tag: 'core' | 'extension', { name, rowType, columns, constants }: DataFile): Element {
  const field = ([, term]: Column, index: number): Element => ({ name: 'field', attributes: { index: String(index), term } });
  const fields = columns.map(field);
  return {
    name: tag,
    attributes: {
      encoding: 'UTF-8',
      fieldsTerminatedBy: ',',
      linesTerminatedBy: '\\r\\n',
      fieldsEnclosedBy: '"',
      ignoreHeaderLines: '1',
      rowType,
    },
    content: [
      { name: 'files', content: [{ name: 'location', content: name }] },
      { name: tag === 'core' ? 'id' : 'coreid', attributes: { index: '0' } },
      // The first column of an extension only says which row of the core a row belongs to.
      ...(tag === 'core' ? fields : fields.slice(1)),
      ...constants.map(([term, value]) => ({ name: 'field', attributes: { term, default: value } })),
    ],
  };
}

const metaText = (core: DataFile, extensions: readonly DataFile[]): string =>
  xmlText({
    name: 'archive',
    attributes: { xmlns: 'http://rs.tdwg.org/dwc/text/', metadata: 'eml.xml' },
    content: [fileElement('core', core), ...extensions.map((file) => fileElement('extension', file))],
  });

const BASES = ['measured', 'derived', 'imputed', 'practice', 'recalled'] as const;

/** What the set holds, in figures that anyone can count again. */
function abstractOf(records: readonly SpeciesRecord[]): string {
  const facts = records.flatMap(factsOf);
  const counts = BASES.map((basis) => `${facts.filter(({ grounds }) => grounds.basis === basis).length} ${basis}`);
  return `${records.length} species of marine aquarium animals with ${facts.length} measurements and facts. By what they rest on: ${counts.join(
    ', ',
  )}; ${facts.filter(({ grounds }) => grounds.basis === undefined).length} are of the record itself. Measured: published for the species. Derived: computed from published values. Imputed: a stand-in from genus, family or feeding guild. Practice: common practice, no source. Recalled: from memory, unchecked.`;
}

function emlText(records: readonly SpeciesRecord[], { title, creator, release, rights }: ArchiveFacts): string {
  const party = (name: string): Element => ({ name, content: [{ name: 'organizationName', content: creator }] });
  const paragraph = (name: string, content: string): Element => ({ name, content: [{ name: 'para', content }] });
  return xmlText({
    name: 'eml:eml',
    attributes: {
      'xmlns:eml': 'https://eml.ecoinformatics.org/eml-2.2.0',
      packageId: release === undefined ? 'commensal-species-records' : `commensal-species-records-${release}`,
      system: 'https://commensal.example',
      'xml:lang': 'en',
    },
    content: [
      {
        name: 'dataset',
        content: [
          { name: 'title', content: title },
          party('creator'),
          // Releases are named by their year; without one there is no day to give.
          ...(release === undefined ? [] : [{ name: 'pubDate', content: release.slice(0, 4) }]),
          { name: 'language', content: 'en' },
          paragraph('abstract', abstractOf(records)),
          paragraph('intellectualRights', rights),
          party('contact'),
        ],
      },
    ],
  });
}

/**
 * A Darwin Core Archive of records, as the files of its folder: taxa as the core, vernacular names and measurements or facts as
 * extensions, `meta.xml` that describes them and `eml.xml` about the whole. Each name and each thing that a record says is
 * in one row, in the order of ids and of the record; only `extensions` are left out. The same records give the same bytes.
 *
 * Format: Darwin Core text guide of TDWG (http://rs.tdwg.org/dwc/terms/guides/text/), the extension for vernacular names of GBIF
 * (http://rs.gbif.org/terms/1.0/VernacularName), Ecological Metadata Language 2.2.0.
 *
 * @throws RangeError where there is no record.
 * @example
 * darwinCoreArchive(records, { bibliography, title: 'My records', creator: 'A club', rights: 'CC0' }).map(({ name }) => name);
 * // ['meta.xml', 'eml.xml', 'taxon.csv', 'vernacularname.csv', 'measurementorfact.csv']
 */
export function darwinCoreArchive(records: readonly SpeciesRecord[], facts: ArchiveFacts): ArchiveFile[] {
  if (records.length === 0) throw new RangeError('darwinCoreArchive: expected at least one record, received none');
  const inOrder = [...records].sort((one, other) => (one.id < other.id ? -1 : 1));
  const items = new Map(facts.bibliography.map((item) => [item.id, item]));
  const cite = (key: string): string => {
    const item = items.get(key);
    return item === undefined ? 'not in the bibliography' : cited(item);
  };
  const core = dataFile(
    'taxon.csv',
    `${DWC}Taxon`,
    TAXON,
    [
      [`${DWC}kingdom`, 'Animalia'],
      [`${DWC}nomenclaturalCode`, 'ICZN'],
    ],
    inOrder.flatMap(taxonRows),
  );
  const names = inOrder.flatMap(({ id, vernacularNames }) => vernacularNames.map(({ name, language }) => [id, name, language]));
  const extensions = [
    dataFile('vernacularname.csv', 'http://rs.gbif.org/terms/1.0/VernacularName', VERNACULAR, [], names),
    dataFile(
      'measurementorfact.csv',
      `${DWC}MeasurementOrFact`,
      MEASUREMENT,
      [],
      inOrder.flatMap((record) => measurementRows(record, cite)),
    ),
  ];
  return [
    { name: 'meta.xml', text: metaText(core, extensions) },
    { name: 'eml.xml', text: emlText(inOrder, facts) },
    ...[core, ...extensions].map(({ name, table }) => ({ name, text: csvText(table) })),
  ];
}
