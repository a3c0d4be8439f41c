import { rulesProblems } from '@commensal/schema';
import { describe, expect, it } from 'vitest';
import { describeRule } from './describe.js';
import { rules } from './index.js';

const BIBLIOGRAPHY = rules.flatMap(({ sources }) => sources);

describe('describeRule', () => {
  it('every rule describes itself in a way the schema knows', () => {
    const document = { $schema: 'https://commensal.example/schema/1.0/rules.schema.json', rules: rules.map(describeRule) };
    expect(rules.length).toBeGreaterThan(0);
    expect(rulesProblems(JSON.parse(JSON.stringify(document)))).toEqual([]);
  });

  it('hands out copies, so that nobody changes a rule by its description', () => {
    for (const rule of rules) {
      const description = describeRule(rule);
      expect(description.monotone).not.toBe(rule.monotone);
      expect(description.needs).not.toBe(rule.needs);
      for (const [name, entry] of Object.entries(description.defaults)) expect(entry).not.toBe(rule.defaults[name]);
    }
  });
});

describe('the list of rules', () => {
  it('has every id once', () => {
    const ids = rules.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it.each(rules.map((rule) => [rule.id, rule] as const))('%s says what each threshold rests on', (_, rule) => {
    for (const [name, { basis, note, source }] of Object.entries(rule.defaults)) {
      // A published figure names its source, everything else its reason.
      const reason = basis === 'measured' || basis === 'derived' ? source : note;
      expect(reason, name).toBeTruthy();
      if (source !== undefined) expect(BIBLIOGRAPHY).toContain(source);
    }
  });
});
