import {
  type Bibliography,
  didYouMean,
  type KeyOrder,
  keysOf,
  listWords,
  placeName,
  type Problem,
  sourcesUsedIn,
  speciesKeys,
  speciesProblems,
  type SpeciesRecord,
  valueWords,
} from '@commensal/schema';
import { type Names, namesOf, type RecordFile, recordOfRow } from './measured-species.js';
import { type Figure, figureOf, measurementRows, type Row } from './measurement-table.js';
import { placeMember } from './place-member.js';

/** What a row comes to for one field of one record. */
export interface RowOutcome {
  /** Line of the table. */
  readonly line: number;
  readonly id: string;
  /** The field, such as `shape.bodyDepth`. */
  readonly field: string;
  readonly figure: Figure;
  /** What the record held there before. */
  readonly before?: Figure | undefined;
}

/** What came of a table of measurements. */
export interface MeasurementImport {
  /** The records with their new figures; those that a wrong row names are left out. */
  readonly changed: readonly RecordFile[];
  readonly added: readonly RowOutcome[];
  /** Figures of a lower basis that gave way to measured ones. */
  readonly replaced: readonly RowOutcome[];
  /** Fields that hold another figure already: left as they were. */
  readonly conflicts: readonly RowOutcome[];
  /** Rows whose figure stood in the record already. */
  readonly already: number;
  /** What is wrong, row by row. */
  readonly problems: readonly Problem[];
}

type Members = Readonly<Record<string, unknown>>;

/** What a measured figure may take the place of, where that is asked for. */
const LOWER: readonly unknown[] = ['recalled', 'imputed', 'practice'];

function fieldsIn(order: KeyOrder, path: string): string[] {
  return Object.entries(order).flatMap(([key, inner]) => {
    if (inner === null) return [];
    const place = path === '' ? key : `${path}.${key}`;
    return Object.hasOwn(inner, 'unit') && Object.hasOwn(inner, 'basis') ? [place] : fieldsIn(inner, place);
  });
}

/** A list of what other sources give: a row of a table fills a field, it adds to no list. */
const LIST = 'size.maximumElsewhere';

/** The fields of a record that hold a number with a unit. */
export const MEASUREMENT_FIELDS: readonly string[] = fieldsIn(speciesKeys, '').filter((field) => field !== LIST);

function memberAt(document: unknown, keys: readonly string[]): unknown {
  return keys.reduce<unknown>(
    (here, key) => (typeof here === 'object' && here !== null && Object.hasOwn(here, key) ? (here as Members)[key] : undefined),
    document,
  );
}

/** A copy of an object with something set deep in it, at the place that the schema gives it. */
function placedAt(object: Members, [key = '', ...deeper]: readonly string[], value: unknown, order: KeyOrder): Members {
  if (deeper.length === 0) return placeMember(object, key, value, order);
  const inner = (object[key] ?? {}) as Members;
  return placeMember(object, key, placedAt(inner, deeper, value, order[key] ?? {}), order);
}

const sameFigure = (one: Figure, other: Figure): boolean =>
  Object.keys(one).length === Object.keys(other).length && Object.entries(one).every(([key, value]) => other[key] === value);

/** The list of sources follows the figures; a source that was idle before stays, for it is not this table's to take out. */
function withSources(record: SpeciesRecord, before: SpeciesRecord): SpeciesRecord {
  const used = sourcesUsedIn(record);
  const usedBefore = sourcesUsedIn(before);
  const kept = record.sources.filter((source) => used.has(source) || !usedBefore.has(source));
  return { ...record, sources: [...new Set([...kept, ...used])].sort() };
}

/** A problem of the record as one of the row that brought the figure. */
function problemOfRow(row: Row, field: string, problem: Problem): Problem {
  const inner = keysOf(problem.pointer).slice(field.split('.').length)[0];
  const { code, found, allowed, fix } = problem;
  return row.problem(inner ?? 'field', { code, found, allowed, fix });
}

interface Accepted extends RowOutcome {
  readonly row: Row;
}

/** All that the rows of one record come to. */
function applied(
  entry: RecordFile,
  accepted: readonly Accepted[],
): { readonly record: SpeciesRecord; readonly problems: readonly Problem[] } {
  const before = entry.record;
  const own = speciesProblems(before);
  const [first] = accepted;
  if (own.length > 0 && first !== undefined) {
    const problem = first.row.problem('field', {
      code: 'record-wrong',
      found: `${entry.file} has ${own.length === 1 ? 'a mistake' : `${own.length} mistakes`} of its own, the first at ${placeName(own[0]?.pointer ?? '')}`,
      allowed: 'a record must be right before figures are added to it',
      fix: 'Run commensal records check, and put it right.',
    });
    return { record: before, problems: [problem] };
  }
  const problems: Problem[] = [];
  let record: Members = before as unknown as Members;
  for (const { row, field, figure } of accepted) {
    const keys = field.split('.');
    const one = withSources(placedAt(before as unknown as Members, keys, figure, speciesKeys) as unknown as SpeciesRecord, before);
    problems.push(...speciesProblems(one).map((problem) => problemOfRow(row, field, problem)));
    record = placedAt(record, keys, figure, speciesKeys);
  }
  return { record: withSources(record as unknown as SpeciesRecord, before), problems };
}

/** What one row says: of which record, in which field, or what is wrong with it. */
interface Said {
  readonly row: Row;
  /** The record where the row names one, right or wrong in the rest. */
  readonly entry: RecordFile | undefined;
  readonly field: string;
  readonly figure: Figure;
  readonly problems: readonly Problem[];
}

function fieldProblem(row: Row, field: string): Problem[] {
  if (MEASUREMENT_FIELDS.includes(field)) return [];
  const problem = row.problem('field', {
    code: 'unknown-field',
    found: field === '' ? 'the row names no field' : `field is ${valueWords(field)}`,
    allowed: `fields with a number and a unit are ${listWords(MEASUREMENT_FIELDS, 'and')}`,
    fix: didYouMean(field, MEASUREMENT_FIELDS, 'Choose one of them; other fields are written into the record itself.'),
  });
  return [problem];
}

function said(row: Row, names: Names, bibliography: Bibliography): Said {
  const entry = recordOfRow(row, names);
  const isRecord = 'record' in entry;
  const field = row.cells.get('field') ?? '';
  const { figure, problems } = figureOf(row, bibliography);
  return {
    row,
    entry: isRecord ? entry : undefined,
    field,
    figure,
    problems: [...row.problems, ...(isRecord ? [] : [entry]), ...fieldProblem(row, field), ...problems],
  };
}

/** Rows that say a second time what a row before them has said of the same field. */
function twinProblems(rows: readonly Said[]): ReadonlyMap<Said, Problem> {
  const first = new Map<string, number>();
  const found = new Map<Said, Problem>();
  for (const one of rows) {
    const { row, entry, field, problems } = one;
    if (entry === undefined || problems.length > 0) continue;
    const key = `${entry.record.id} ${field}`;
    const twin = first.get(key);
    if (twin === undefined) first.set(key, row.line);
    else {
      const problem = row.problem('field', {
        code: 'duplicate-row',
        found: `${field} of ${entry.record.id} stands in line ${twin} already`,
        allowed: 'a record holds one figure in a field',
        fix: 'Keep the better of the two rows.',
      });
      found.set(one, problem);
    }
  }
  return found;
}

const givesWay = (before: Figure, figure: Figure): boolean => figure.basis === 'measured' && LOWER.includes(before.basis);

const byPlace = ({ line: one = 0, column: first = 0 }: Problem, { line: other = 0, column: second = 0 }: Problem): number =>
  one - other || first - second;

/**
 * Adds the measurements of a CSV table to records. The header names the columns: `id` or `scientificName` (or a synonym), `field` (one
 * of `MEASUREMENT_FIELDS`), `value`, or `low` and `high`, `unit`, `basis`, and where they apply `source`, `interval`, `lengthType`, `per`, `at`,
 * `formula`, `from`, `searched`, `note`. What a record holds already is never overwritten: another figure in the same field is a
 * conflict, told with both. With `preferMeasured` a measured figure takes the place of one that is recalled, imputed or practice.
 * A record that a wrong row names is left as it is, whatever the other rows say of it; each record that comes back passes
 * `speciesProblems`, keeps its order of keys and lists its sources.
 *
 * Codes of problems, besides those of `speciesProblems`: `bad-quotes`, `no-rows`, `unknown-column`, `duplicate-column`, `missing-column`,
 * `too-many-cells`, `no-species`, `unknown-species`, `name-mismatch`, `unknown-field`, `not-a-number`, `unknown-source`, `duplicate-row`,
 * `record-wrong`.
 *
 * @example
 * importMeasurements('scientificName,field,value,unit,basis\nGramma loreto,lifeCycle.longevity,5,a,recalled', { file: 'm.csv', entries, bibliography });
 */
export function importMeasurements(
  text: string,
  {
    file,
    entries,
    bibliography,
    preferMeasured = false,
  }: {
    readonly file: string;
    readonly entries: readonly RecordFile[];
    readonly bibliography: Bibliography;
    readonly preferMeasured?: boolean;
  },
): MeasurementImport {
  const { rows, problems: ofTable } = measurementRows(text, file);
  const names = namesOf(entries);
  const all = rows.map((row) => said(row, names, bibliography));
  const twins = twinProblems(all);
  const problems = [...ofTable];
  const wrong = new Set<RecordFile>();
  const accepted = new Map<RecordFile, Accepted[]>();
  const conflicts: RowOutcome[] = [];
  let already = 0;
  for (const one of all) {
    const { row, entry, field, figure } = one;
    const twin = twins.get(one);
    const own = twin === undefined ? one.problems : [twin];
    problems.push(...own);
    if (entry !== undefined && own.length > 0) wrong.add(entry);
    if (entry === undefined || own.length > 0) continue;
    const before = memberAt(entry.record, field.split('.')) as Figure | undefined;
    const outcome = { line: row.line, id: entry.record.id, field, figure, before };
    if (before === undefined || (preferMeasured && !sameFigure(before, figure) && givesWay(before, figure))) {
      accepted.set(entry, [...(accepted.get(entry) ?? []), { ...outcome, row }]);
    } else if (sameFigure(before, figure)) already += 1;
    else conflicts.push(outcome);
  }
  const changed: RecordFile[] = [];
  const done: RowOutcome[] = [];
  for (const [entry, ofRecord] of accepted) {
    const { record, problems: found } = applied(entry, ofRecord);
    problems.push(...found);
    if (found.length > 0 || wrong.has(entry)) continue;
    changed.push({ file: entry.file, record });
    done.push(...ofRecord.map(({ row: _, ...outcome }) => outcome));
  }
  return {
    changed,
    added: done.filter(({ before }) => before === undefined),
    replaced: done.filter(({ before }) => before !== undefined),
    conflicts,
    already,
    problems: problems.sort(byPlace),
  };
}

/**
 * A figure in a few words, with what it rests on.
 *
 * @example
 * figureWords({ low: 6, high: 8, unit: 'cm', lengthType: 'TL', basis: 'recalled' }); // '6 to 8 cm TL (recalled)'
 */
export function figureWords({ value, low, high, unit, lengthType, per, basis, source }: Figure): string {
  const band = low === undefined ? '' : `${low} to ${high}`;
  const number = value === undefined ? band : band === '' ? String(value) : `${value} (${band})`;
  const measure = unit === '1' || unit === undefined ? '' : ` ${unit}`;
  const type = lengthType === undefined ? (per === undefined ? '' : ` of ${per}`) : ` ${lengthType}`;
  return `${number}${measure}${type} (${[basis, source].filter((part) => part !== undefined).join(', ')})`;
}
