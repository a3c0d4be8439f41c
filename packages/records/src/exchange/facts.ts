import type { SpeciesRecord } from '@commensal/schema';
import { QUALIFIERS } from './qualifiers.js';

/** One thing that a record says of its species, with what it rests on. */
export interface Fact {
  /** Where it stands, as a person would write it: `size.maximum`, `size.entry.low`, `conduct.harms[0].how`. */
  readonly path: string;
  readonly value: string | number | boolean;
  readonly grounds: Grounds;
}

/** What a figure says of itself besides its numbers and words. */
export interface Grounds {
  readonly unit?: string;
  readonly interval?: string;
  readonly lengthType?: string;
  readonly per?: string;
  readonly at?: string;
  readonly basis?: string;
  readonly source?: string;
  readonly formula?: string;
  readonly from?: string;
  readonly searched?: string;
  readonly note?: string;
}

type Members = Readonly<Record<string, unknown>>;

/** What names the species stands in the taxon and its names; who embeds the library may have said anything in the extensions. */
const NO_FACTS: readonly string[] = ['$schema', 'id', 'taxon', 'synonyms', 'vernacularNames', 'sources', 'extensions'];

/** How Darwin Core joins the values of a list. */
const LIST = ' | ';

const isMembers = (value: unknown): value is Members => typeof value === 'object' && value !== null && !Array.isArray(value);

const groundsOf = (members: Members): Grounds => Object.fromEntries(Object.entries(members).filter(([key]) => QUALIFIERS.includes(key)));

/** The central value of a figure goes by the name of the figure. */
const pathOf = (path: string, key: string): string => (key === 'value' ? path : `${path}.${key}`);

function factsIn(value: unknown, path: string, grounds: Grounds): Fact[] {
  if (Array.isArray(value)) {
    if (value.length > 0 && value.every(isMembers)) return value.flatMap((item, index) => factsIn(item, `${path}[${index}]`, grounds));
    // An empty list is a statement: looked for, and there is none.
    return [{ path, value: value.length === 0 ? 'none' : value.join(LIST), grounds }];
  }
  if (!isMembers(value)) return [{ path, value: value as Fact['value'], grounds }];
  const isFigure = Object.hasOwn(value, 'basis');
  const own = isFigure ? groundsOf(value) : grounds;
  return Object.entries(value).flatMap(([key, member]) =>
    isFigure && QUALIFIERS.includes(key) ? [] : factsIn(member, pathOf(path, key), own),
  );
}

/**
 * Everything that a record says of its species but its names, each once, in the order of the record.
 *
 * @example
 * factsOf(record).find(({ path }) => path === 'size.maximum')?.value; // 8
 */
export function factsOf(record: SpeciesRecord): Fact[] {
  return Object.entries(record).flatMap(([key, value]) => (NO_FACTS.includes(key) ? [] : factsIn(value, key, {})));
}
