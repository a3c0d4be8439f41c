import type { Situation, SpeciesRecord } from '@commensal/schema';
import { dayOf, isoOf } from '../../quantity/days.js';
import type { Library } from '../../stock/library.js';
import type { Variable } from '../study/variable.js';

/** The documents of one scenario. */
export interface Scenario {
  readonly situation: Situation;
  readonly library: Library;
}

/**
 * The documents of one scenario: a situation and a library with the values of the variables written in, the rest as it was. What a study computes of a
 * scenario is what check and plan find in these.
 *
 * A figure with a unit becomes exactly the value, and keeps what it rests on, save that a stand-in becomes a figure of the species' own, from memory; a day becomes that many whole days after the day of the situation.
 */
export function scenarioOf(situation: Situation, library: Library, variables: readonly Variable[], values: Float64Array): Scenario {
  let documents: Documents = { situation, species: {} };
  const records = new Map<string, SpeciesRecord>();
  variables.forEach((variable, at) => {
    for (const pointer of variable.at) {
      const keys = keysOf(pointer);
      const [root, id = ''] = keys;
      if (root === 'species' && !records.has(id)) {
        const record = library.records.get(id);
        if (record === undefined) throw new RangeError(`scenarioOf: expected a species of the library, received "${id}"`);
        records.set(id, record);
        documents = { ...documents, species: { ...documents.species, [id]: record } };
      }
      documents = written(documents, keys, (old) =>
        valueIn(variable, values[at] as number, old, root === 'species', situation.date),
      ) as Documents;
    }
  });
  if (records.size === 0) return { situation: documents.situation, library };
  const changed = new Map(library.records);
  for (const id of records.keys()) changed.set(id, documents.species[id] as SpeciesRecord);
  return { situation: documents.situation, library: { ...library, records: changed } };
}

interface Documents {
  readonly situation: Situation;
  readonly species: Readonly<Record<string, SpeciesRecord>>;
}

/** The keys that a JSON Pointer goes through. */
export const keysOf = (pointer: string): string[] =>
  pointer
    .split('/')
    .slice(1)
    .map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~'));

/** A copy of a document in which one place has another value; objects on the way that are not there are made. */
function written(document: unknown, keys: readonly string[], value: (old: unknown) => unknown): unknown {
  const [key, ...rest] = keys;
  if (key === undefined) return value(document);
  if (Array.isArray(document)) {
    const copy = [...document];
    copy[Number(key)] = written(copy[Number(key)], rest, value);
    return copy;
  }
  const members = (document ?? {}) as Readonly<Record<string, unknown>>;
  return { ...members, [key]: written(members[key], rest, value) };
}

/** A figure that the record does not have rests on nothing but the study. */
const UNTOLD = { basis: 'recalled' };

function valueIn({ unit, words, whole }: Variable, value: number, old: unknown, isRecord: boolean, date: string): unknown {
  if (words !== undefined) return words[value];
  if (typeof old === 'string') return isoOf(dayOf(date) + Math.floor(value));
  if (unit === undefined || (typeof old === 'number' && whole === undefined)) return value;
  // A figure of a record without ends would get the band of its basis.
  const ends = isRecord ? { low: value, high: value } : {};
  const {
    value: _value,
    low: _low,
    high: _high,
    unit: _unit,
    interval: _interval,
    ...rest
  } = (whole ?? old ?? UNTOLD) as Readonly<Record<string, unknown>>;
  if (!isRecord || whole !== undefined || rest.basis !== 'imputed') return { ...rest, value, ...ends, unit };
  // A stand-in of relatives gives way to theirs; what the study sets is of this species.
  const { source: _source, from: _from, ...own } = rest;
  return { ...own, value, ...ends, unit, ...UNTOLD };
}
