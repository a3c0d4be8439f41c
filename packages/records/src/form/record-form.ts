import { childPointer, placeName, type Problem, speciesKeys } from '@commensal/schema';
import { placesIn } from '../json-text/places.js';
import { jsonTree, type JsonMember, type JsonNode } from '../json-text/tree.js';
import { converted, sameNumber } from './decimal.js';
import { keyRanks, type KeyRanks, rankOf } from './key-ranks.js';
import { print, type Printed } from './printed.js';
import { misspaced } from './spacing.js';
import { CANONICAL_UNITS, type Canonical } from './units.js';

/** What was found, and the text: repaired where that was asked for, else as it came. */
export interface RecordForm {
  readonly problems: readonly Problem[];
  readonly text: string;
}

/** What is known of a place before line and column are counted. */
interface Found extends Omit<Problem, 'line' | 'column' | 'fix'> {
  readonly offset: number;
}

const FIX = 'Run commensal records fix.';
const MARK = '\uFEFF';
const RANKS = keyRanks(speciesKeys);

/** Others keep what they like in here, in whatever order and spelling. */
const EXTENSIONS = '/extensions';

/** The members of a quantity that are numbers in its unit. */
const NUMBERS: readonly string[] = ['value', 'low', 'high'];

/**
 * The text of a record in the form in which records are kept: `JSON.stringify` with two spaces, a line feed at the end.
 *
 * @example
 * jsonText({ id: 'gramma-loreto' }); // '{\n  "id": "gramma-loreto"\n}\n'
 */
export const jsonText = (data: unknown): string => `${JSON.stringify(data, null, 2)}\n`;

/**
 * The form of a record, which is all that can be put right without knowing its species: the order of keys is that of the schema,
 * the text is spaced and spelled as `JSON.stringify` does it with two spaces, quantities are in the units that records are kept
 * in, `sources` are sorted. With `fix`, `text` is the record with all of that put right, and with nothing else changed; without,
 * it is the text as it came. `extensions` keep their order and their spelling. A text that is spaced otherwise has one problem, at
 * the first place; so has a record some of whose values are spelled otherwise.
 *
 * The text must be JSON without duplicate keys. What the schema says of it plays no part.
 *
 * Codes: `spacing`, `spelling`, `key-order`, `unit-not-canonical`, `sources-order`.
 *
 * @throws SyntaxError where the text is not JSON.
 * @example
 * recordForm('{"id": "gramma-loreto"}', { fix: true }).text; // '{\n  "id": "gramma-loreto"\n}\n'
 */
export function recordForm(text: string, { fix }: { readonly fix: boolean }): RecordForm {
  const marked = text.startsWith(MARK);
  const bare = marked ? text.slice(1) : text;
  const data: unknown = JSON.parse(bare);
  // Nearly every record is in order, and then nothing has to be placed.
  if (!marked && isInOrder(data) && jsonText(data) === bare) return { problems: [], text };

  const found: Found[] = [];
  const root = jsonTree(bare);
  const repaired = repair(bare, root, found);
  const spacing = marked
    ? { offset: 0, found: 'the file starts with a byte order mark', allowed: 'it starts with a brace' }
    : misspaced(bare, `${print(asItStands(bare, root))}\n`);
  if (spacing !== undefined) found.push({ code: 'spacing', pointer: '', ...spacing });
  const placeOf = placesIn(bare);
  const problems = found
    .sort((one, other) => one.offset - other.offset)
    .map(({ offset, ...problem }): Problem => ({ ...problem, ...placeOf(offset), fix: FIX }));
  return { problems, text: fix ? `${print(repaired)}\n` : text };
}

/**
 * What is wrong with the form of a record, in the order of its text; see `recordForm`.
 *
 * @example
 * formProblems('{"id": "gramma-loreto"}')[0].code; // 'spacing'
 */
export const formProblems = (text: string): readonly Problem[] => recordForm(text, { fix: false }).problems;

/**
 * Whether keys, units and sources of a record are in order: the fast look that finds no places. A record of which this holds, and
 * whose text is `jsonText` of it, has no problem of form.
 *
 * @example
 * isInOrder({ id: 'gramma-loreto', sources: ['b', 'a'] }); // false
 */
export function isInOrder(data: unknown): boolean {
  const { sources } = (data ?? {}) as { readonly sources?: unknown };
  if (Array.isArray(sources) && sources.some((source, index) => index > 0 && !(sources[index - 1] < source))) return false;
  return inOrder(data, RANKS, true);
}

function inOrder(value: unknown, ranks: KeyRanks | undefined, isRoot = false): boolean {
  if (typeof value !== 'object' || value === null) return true;
  if (Array.isArray(value)) return value.every((item) => inOrder(item, ranks));
  let last = -1;
  for (const key of Object.keys(value)) {
    const member = (value as Readonly<Record<string, unknown>>)[key];
    const rank = rankOf(ranks, key);
    if (rank < last || (key === 'unit' && CANONICAL_UNITS.has(member as string))) return false;
    last = rank;
    if (isRoot && key === 'extensions') continue;
    if (typeof member === 'object' && !inOrder(member, ranks?.get(key)?.inner)) return false;
  }
  return true;
}

/** The value with everything but its spacing as it is. */
function asItStands(text: string, node: JsonNode): Printed {
  if (node.kind === 'array') return { items: node.items.map((item) => asItStands(text, item)) };
  if (node.kind !== 'object') return text.slice(node.start, node.end);
  return { members: node.members.map(({ start, end, value }) => ({ name: text.slice(start, end), value: asItStands(text, value) })) };
}

const isNumber = (written: string): boolean => /^[-\d]/.test(written);

/** The record with its form put right; what was not right is added to `found`. */
function repair(text: string, root: JsonNode, found: Found[]): Printed {
  let misspelt = false;

  /** A plain value or a name, spelled as JSON.stringify does it where that says the same. */
  const spelled = ({ start, end }: { readonly start: number; readonly end: number }, pointer: string): string => {
    const written = text.slice(start, end);
    // Nothing but a backslash can spell a text, or a word, in two ways.
    if (!isNumber(written) && !written.includes('\\')) return written;
    const usual = JSON.stringify(JSON.parse(written));
    // A number with more digits than JavaScript holds would lose some.
    if (written === usual || (isNumber(written) && !sameNumber(written, usual))) return written;
    if (!misspelt) {
      const allowed = `it is written ${usual}`;
      found.push({ code: 'spelling', pointer, offset: start, found: `${placeName(pointer)} is written ${written}`, allowed });
      misspelt = true;
    }
    return usual;
  };

  const repaired = (node: JsonNode, pointer: string, ranks: KeyRanks | undefined): Printed => {
    if (pointer === EXTENSIONS) return asItStands(text, node);
    if (node.kind === 'array') {
      const items = node.items.map((item, index) => repaired(item, childPointer(pointer, index), ranks));
      return { items: pointer === '/sources' ? sortedSources(text, node.items, items, found) : items };
    }
    if (node.kind !== 'object') return spelled(node, pointer);
    const unit = canonicalUnit(text, node.members, pointer, found);
    const members = node.members.map((member) => {
      const place = childPointer(pointer, member.key);
      const value = repaired(member.value, place, ranks?.get(member.key)?.inner);
      return { key: member.key, name: spelled(member, place), value: unit?.get(member) ?? value };
    });
    const sorted = [...members].sort((one, other) => compare(rankOf(ranks, one.key), rankOf(ranks, other.key)));
    const index = sorted.findIndex((member, position) => member !== members[position]);
    const misplaced = node.members[index];
    if (misplaced !== undefined) {
      found.push({
        code: 'key-order',
        pointer: childPointer(pointer, misplaced.key),
        offset: misplaced.start,
        found: `in ${placeName(pointer)}, "${misplaced.key}" stands before "${sorted[index]?.key}"`,
        allowed: `the order is ${sorted.map(({ key }) => key).join(', ')}`,
      });
    }
    return { members: sorted };
  };

  return repaired(root, '', RANKS);
}

const compare = (one: number, other: number): number => (one < other ? -1 : one > other ? 1 : 0);

/** What unit and numbers of a quantity become where records are kept in another unit. */
function canonicalUnit(
  text: string,
  members: readonly JsonMember[],
  pointer: string,
  found: Found[],
): ReadonlyMap<JsonMember, string> | undefined {
  const unit = members.find(({ key, value }) => key === 'unit' && value.kind === 'text');
  if (unit === undefined) return undefined;
  const code = JSON.parse(text.slice(unit.value.start, unit.value.end)) as string;
  const canonical = CANONICAL_UNITS.get(code);
  const numbers = members.filter(({ key, value }) => NUMBERS.includes(key) && value.kind === 'number');
  const become = canonical === undefined ? undefined : numbersIn(text, numbers, canonical);
  if (canonical === undefined || become === undefined) return undefined;
  const place = childPointer(pointer, 'unit');
  const [first] = numbers;
  const same =
    first === undefined ? '' : `: ${text.slice(first.value.start, first.value.end)} ${code} is ${become.get(first)} ${canonical.unit}`;
  found.push({
    code: 'unit-not-canonical',
    pointer: place,
    offset: unit.value.start,
    found: `${placeName(place)} is "${code}"`,
    allowed: `records are kept in "${canonical.unit}"${same}`,
  });
  return become.set(unit, JSON.stringify(canonical.unit));
}

/** The numbers in the canonical unit; undefined where one of them is beyond conversion. */
function numbersIn(text: string, numbers: readonly JsonMember[], canonical: Canonical): Map<JsonMember, string> | undefined {
  const become = new Map<JsonMember, string>();
  for (const member of numbers) {
    const number = converted(text.slice(member.value.start, member.value.end), canonical);
    if (number === undefined) return undefined;
    become.set(member, number);
  }
  return become;
}

/** The items of `sources` in the order of their keys, each once; left as they are where one is no text. */
function sortedSources(text: string, nodes: readonly JsonNode[], items: readonly Printed[], found: Found[]): readonly Printed[] {
  if (nodes.some(({ kind }) => kind !== 'text')) return items;
  const keys = nodes.map(({ start, end }) => JSON.parse(text.slice(start, end)) as string);
  const sorted = [...new Set(keys)].sort();
  const index = keys.findIndex((key, position) => key !== sorted[position]);
  if (index < 0) return items;
  const repeated = keys.indexOf(keys[index] ?? '') < index;
  const place = childPointer('/sources', index);
  found.push({
    code: 'sources-order',
    pointer: place,
    offset: nodes[index]?.start ?? 0,
    found: repeated ? `${placeName(place)} is "${keys[index]}" once more` : `${placeName(place)} is "${keys[index]}"`,
    allowed: repeated ? 'each source stands there once' : `in alphabetical order it is "${sorted[index]}"`,
  });
  return sorted.map((key) => JSON.stringify(key));
}
