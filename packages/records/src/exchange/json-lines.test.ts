import { speciesProblems, type SpeciesRecord } from '@commensal/schema';
import { records } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import { jsonLines } from './json-lines.js';

/** The same with the keys of every object turned round. */
function turned(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(turned);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, member]) => [key, turned(member)]),
  );
}

describe('JSON Lines', () => {
  const text = jsonLines(records);
  const lines = text.split('\n');

  it('has one record a line, and ends with a line feed', () => {
    expect(lines.pop()).toBe('');
    expect(lines).toHaveLength(records.length);
  });

  it('gives every record back as it was, in the order of ids', () => {
    const read = text
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as SpeciesRecord);
    const ids = read.map(({ id }) => id);
    expect(ids).toEqual([...ids].sort());
    for (const record of read) {
      expect(record).toEqual(records.find(({ id }) => id === record.id));
      expect(speciesProblems(record)).toEqual([]);
    }
  });

  it('is the same text whatever the order of records and keys, as RFC 8785 has it', () => {
    expect(jsonLines((turned(records) as SpeciesRecord[]).reverse())).toBe(text);
    // The example of RFC 8785, section 3.2.3: keys in the order of their UTF-16 units.
    const keys = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    };
    const values = Object.values(JSON.parse(jsonLines([{ ...keys, id: 'x' } as unknown as SpeciesRecord])) as object);
    expect(values).toEqual([
      'One',
      'Carriage Return',
      'x',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });
});
