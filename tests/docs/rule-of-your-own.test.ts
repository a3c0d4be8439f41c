/** The rule on the page for developers is the file that its blocks import, and a rule as the types and the schema want it. */
import { type AnyRule, check, describeRule, isError, libraryOf, plan, rules, stockOf } from '@commensal/core';
import { namesIn, planText, ruleText, sayFinding, withSentences } from '@commensal/report';
import { de } from '@commensal/report/de';
import { en } from '@commensal/report/en';
import {
  checkProblems,
  planProblems,
  rulesProblems,
  SCHEMA_VERSION,
  type Situation,
  situationProblems,
  speciesProblems,
} from '@commensal/schema';
import { records, standIns } from '@commensal/species-sample';
import { describe, expect, test } from 'vitest';
import { fencesIn } from '../../scripts/docs.mjs';
import { textOf } from '../support/repository.js';

const file = 'examples/house-list.rule.mjs';
const { english, german, houseList } = (await import(`../../${file}`)) as {
  houseList: AnyRule;
  english: Parameters<typeof withSentences>[1];
  german: Parameters<typeof withSentences>[1];
};
const schema = <Name extends string>(name: Name) => `https://commensal.example/schema/1.0/${name}.schema.json` as const;
const versions = { code: '0', schema: SCHEMA_VERSION, data: '0' };

const listed: Readonly<Record<string, string>> = { 'pterois-volitans': 'no', 'gramma-loreto': 'ask' };
const ours = records.map((record) =>
  record.id in listed ? { ...record, extensions: { lanternclub: { listed: listed[record.id] } } } : record,
);
const library = libraryOf(ours, standIns);

const situation: Situation = {
  $schema: schema('situation'),
  date: '2027-03-01',
  tank: { water: { value: 600, unit: 'L' } },
  residents: [{ id: 'choir', name: 'Choir', species: 'chromis-viridis', count: 9 }],
  wishes: [{ species: 'gramma-loreto' }, { species: 'pterois-volitans' }],
  settings: { off: rules.map(({ id }) => id) },
};

test('the page shows the file', () => {
  const page = textOf('docs/a-rule-of-your-own.md').split('\n');
  const shown = fencesIn(page).find(({ info }) => info === `js file ${file}`);
  expect(page.slice(shown?.from, shown?.to).join('\n')).toBe(textOf(file).trimEnd());
});

describe('its rule', () => {
  const all = [...rules, houseList];

  test('reads what the records hold for it, and finds', () => {
    expect(ours.flatMap((record) => speciesProblems(record))).toEqual([]);
    const checked = check(stockOf(situation, library).stock, all);
    expect(checked.findings.map(({ key, level, message }) => [key, level, message])).toEqual([
      ['lanternclub/house-list:animal=choir', 'error', 'lanternclub/house-list.tooMany'],
    ]);
    expect(checked.findings.filter(isError)).toHaveLength(1);
    expect(checked.summary.rules['lanternclub/house-list']).toEqual({ passed: 0, failed: 1, cantTell: 0, inapplicable: 0, untested: 0 });
    expect(checkProblems(JSON.parse(JSON.stringify({ $schema: schema('check'), ...checked, versions })))).toEqual([]);
  });

  test('has a description that the schema knows, and prints as ours do', () => {
    expect(rulesProblems({ $schema: schema('rules'), rules: [describeRule(houseList)] })).toEqual([]);
    const text = ruleText(withSentences(de, german), describeRule(houseList), (key) => key);
    expect(text).toContain('Hält der Verein dieses Tier, und so viele davon?');
    expect(text).toContain('mostOfAKind');
  });

  test('plans: what it forbids is left out, for its reason, and told in either language', () => {
    const planned = plan(situation, library, all);
    expect(planned).toMatchObject({ chosen: [{ species: 'gramma-loreto' }], proven: true });
    expect(planned.leftOut).toMatchObject([{ species: 'pterois-volitans', because: [{ rule: 'lanternclub/house-list' }] }]);
    const document = { $schema: schema('plan'), ...planned, versions };
    expect(planProblems(JSON.parse(JSON.stringify(document)))).toEqual([]);
    for (const [catalogue, words] of [
      [withSentences(en, english), 'The club does not keep the red lionfish.'],
      [withSentences(de, german), 'Der Verein hält dieses Tier nicht:'],
    ] as const) {
      const names = namesIn(situation, library, catalogue.language, planned.leftOut);
      expect(planText({ catalogue, units: 'metric', names }, situation, document)).toContain(words);
    }
  });

  test('obeys settings that the schema takes', () => {
    const settings: NonNullable<Situation['settings']> = {
      ...situation.settings,
      thresholds: { [houseList.id]: { mostOfAKind: 9 } },
      accepted: [{ key: 'lanternclub/house-list:animal=pterois-volitans', reason: 'The committee agreed.' }],
    };
    const told = { ...situation, settings };
    expect(situationProblems(told)).toEqual([]);
    const planned = plan(told, library, all);
    expect(planned.chosen.map(({ species }) => species)).toEqual(['gramma-loreto', 'pterois-volitans']);
    expect(planned.summary).toMatchObject({ accepted: 1, failed: { error: 0 } });
    const off = plan({ ...situation, settings: { off: all.map(({ id }) => id) } }, library, all);
    expect([off.chosen.length, off.summary.rules[houseList.id]?.untested]).toEqual([2, 1]);
  });

  test('without its sentences is told to lack them', () => {
    const [finding] = check(stockOf(situation, library).stock, all).findings;
    if (finding === undefined) throw new Error('nothing was found');
    const voice = { catalogue: en, units: 'metric' as const, names: namesIn(situation, library, 'en') };
    expect(() => sayFinding(voice, finding)).toThrow(/received "lanternclub\/house-list\.tooMany"; add its sentence: withSentences/);
  });
});
