import { describe, expect, it } from 'vitest';
import { speciesMigrations } from './migrate-species.js';
import { EARLIER_VERSIONS, isLaterMinor, otherVersionProblem, schemaAddress, versionOf } from './schema-version.js';

const naming = (address: string): unknown => ({ $schema: address });

describe('the version that a document names', () => {
  it('is read from the address of its schema', () => {
    expect(versionOf(naming(schemaAddress('species', '1.0')), 'species')).toBe('1.0');
    expect(versionOf(naming(schemaAddress('species', '12.34')), 'species')).toBe('12.34');
  });

  it.each([
    ['of another document', schemaAddress('situation', '1.0')],
    ['of another house', 'https://elsewhere.example/schema/1.0/species.schema.json'],
    ['without a minor number', schemaAddress('species', '1')],
    ['with three numbers', schemaAddress('species', '1.0.0')],
    ['with a leading nought', schemaAddress('species', '1.01')],
    ['with a word', schemaAddress('species', 'next')],
    ['empty', ''],
  ])('is none where the address is one %s', (_, address) => {
    expect(versionOf(naming(address), 'species')).toBeUndefined();
    expect(otherVersionProblem(naming(address), 'species')).toBeUndefined();
  });

  it.each([null, 7, 'text', {}, { $schema: 7 }])('is none in %j', (document) => {
    expect(versionOf(document, 'species')).toBeUndefined();
  });

  it('counts as numbers, not as text', () => {
    expect(['1.0', '1.1', '1.10', '2.0', '0.9'].map(isLaterMinor)).toEqual([false, true, true, false, false]);
  });
});

describe('another version than this one', () => {
  const problem = (version: string): { code: string | undefined; fix: string | undefined } => {
    const { code, fix } = otherVersionProblem(naming(schemaAddress('species', version)), 'species') ?? {};
    return { code, fix };
  };

  it('says to upgrade, to migrate, or that nothing leads here', () => {
    expect(problem('1.3')).toEqual({ code: 'later-schema', fix: expect.stringContaining('Upgrade commensal') });
    expect(problem('2.0')).toEqual({ code: 'later-schema', fix: expect.stringContaining('Upgrade commensal') });
    expect(problem('0.9')).toEqual({ code: 'earlier-schema', fix: expect.stringContaining('commensal records migrate') });
    expect(problem('0.3')).toEqual({ code: 'earlier-schema', fix: 'Correct "$schema": records can be brought here from schema 0.9.' });
    expect(problem('1.0')).toEqual({ code: undefined, fix: undefined });
  });

  it('the versions it says to migrate are those there are migrations from', () => {
    expect(speciesMigrations.length).toBeGreaterThan(0);
    expect(speciesMigrations.map(({ from }) => from)).toEqual(EARLIER_VERSIONS);
  });
});
