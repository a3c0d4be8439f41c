/** Laws of the checks of records, over records of the sample with anything in them changed that the schema still takes. */
import { collectionProblems, RECORD_CODES, recordPath, recordProblems } from '@commensal/records';
import { eachObject, type Problem, type SpeciesRecord, valueAt } from '@commensal/schema';
import { validate } from '@commensal/schema/validate/species';
import { bibliography, records, standIns } from '@commensal/species-sample';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runs } from '../support/runs.js';

const context = { bibliography, standIns };

type Node = Record<string, unknown>;

/** Every member of every object of a record. */
function membersOf(record: SpeciesRecord): [object: string, key: string][] {
  const members: [string, string][] = [];
  eachObject(record, (object, pointer) => {
    for (const key of Object.keys(object)) members.push([pointer, key]);
  });
  return members;
}

/** One change: a member taken out, a number made several times as large or small, a word exchanged for that of another record. */
function changed(record: SpeciesRecord, at: number, factor: number, other: SpeciesRecord): SpeciesRecord {
  const copy = structuredClone(record);
  const members = membersOf(copy);
  const [pointer, key] = members[at % members.length] as [string, string];
  const object = valueAt(copy, pointer) as Node;
  const value = object[key];
  const theirs = (valueAt(other, pointer) as Node | undefined)?.[key];
  if (typeof value === 'number') object[key] = value * factor;
  else if (typeof value === 'string' && theirs !== undefined) object[key] = theirs;
  else delete object[key];
  return copy;
}

/** Records with one to three changes that the schema still takes. */
const anyRecord = fc
  .tuple(
    fc.constantFrom(...records),
    fc.array(fc.tuple(fc.nat(), fc.constantFrom(0.1, 0.3, 0.7, 1.4, 3, 10), fc.constantFrom(...records)), { minLength: 1, maxLength: 3 }),
  )
  .map(([record, changes]) => changes.reduce((before, [at, factor, other]) => changed(before, at, factor, other), record))
  .filter((record) => validate(record));

const named = ({ code, pointer }: Problem): string => `${code} ${pointer}`;

/** A copy in which the members of every object stand the other way round. */
function reversed<T>(value: T): T {
  if (Array.isArray(value)) return value.map(reversed) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, member]) => [key, reversed(member)]),
  ) as T;
}

function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) for (const member of Object.values(Object.freeze(value))) frozen(member);
  return value;
}

describe('problems of one record', () => {
  it('have a known code, stand where something stands, and say something', () => {
    let found = 0;
    fc.assert(
      fc.property(anyRecord, (record) => {
        for (const problem of recordProblems(record, context)) {
          found += 1;
          expect(RECORD_CODES[problem.code]?.foundIn).toBe('record');
          expect(valueAt(record, problem.pointer), problem.pointer).toBeDefined();
          for (const text of [problem.found, problem.allowed, problem.fix])
            expect(text).not.toMatch(/undefined|\[object|NaN|Infinity|^\s*$/);
        }
      }),
      { numRuns: runs(1000) },
    );
    expect(found).toBeGreaterThan(runs(50));
  });

  it('do not hang on the order of keys, and change nothing', () => {
    fc.assert(
      fc.property(anyRecord, (record) => {
        const found = recordProblems(frozen(record), context).map(named);
        expect(recordProblems(reversed(record), context).map(named).sort()).toEqual(found.sort());
      }),
      { numRuns: runs(250) },
    );
  });

  it('go away one by one as they are excepted, where they can be', () => {
    let excepted = 0;
    fc.assert(
      fc.property(anyRecord, (record) => {
        const found = recordProblems(record, context);
        const [first] = found.filter(({ code }) => RECORD_CODES[code]?.exception !== undefined);
        if (first === undefined) return;
        excepted += 1;
        const exceptions = [...(record.exceptions ?? []), { code: first.code, at: first.pointer, reason: 'It is so.' }];
        const left = recordProblems({ ...record, exceptions }, context).map(named);
        // One place can have one code for two reasons.
        expect(left).toEqual(found.map(named).filter((name) => name !== named(first)));
      }),
      { numRuns: runs(250) },
    );
    expect(excepted).toBeGreaterThan(runs(5));
  });

  it('are those of the record alone: the sample has none', () => {
    expect(records.flatMap((record) => recordProblems(record, context))).toEqual([]);
  });
});

describe('problems between records', () => {
  it('do not hang on the order in which the records are read', () => {
    const synonymOf: Readonly<Record<string, string>> = {
      'amphiprion-ocellaris': 'Amphiprion percula',
      'amphiprion-percula': 'Amphiprion ocellaris',
      'chrysiptera-cyanea': 'Premnas biaculeatus',
    };
    const familyOf: Readonly<Record<string, string>> = { 'cephalopholis-miniata': 'Serranidae' };
    const entries = records.map((record) => {
      const { id, taxon } = record;
      const synonym = synonymOf[id];
      const wrong = {
        ...record,
        taxon: { ...taxon, family: familyOf[id] ?? taxon.family },
        ...(synonym === undefined ? {} : { synonyms: [synonym] }),
        ...(id === 'entacmaea-quadricolor' ? { needs: { ...record.needs, partners: undefined } } : {}),
      } as SpeciesRecord;
      return { file: recordPath(record), record: wrong };
    });
    const found = (list: typeof entries): string[] =>
      collectionProblems(list, context)
        .map((problem) => `${problem.file ?? ''} ${named(problem)}`)
        .sort();
    const expected = found(entries);
    expect(expected.length).toBeGreaterThan(5);
    fc.assert(
      fc.property(fc.shuffledSubarray(entries, { minLength: entries.length }), (shuffled) => {
        expect(found(shuffled)).toEqual(expected);
      }),
      { numRuns: runs(20) },
    );
  });
});
