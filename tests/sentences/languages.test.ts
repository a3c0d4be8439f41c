/** Every language says all that English says, of the same things, and the command line speaks each of them. */
import { type Catalogue, has, sayHow, sayQuestion } from '@commensal/report';
import { de } from '@commensal/report/de';
import { ja } from '@commensal/report/ja';
import { en } from '@commensal/report/en';
import { parse, type Token } from '@messageformat/parser';
import { describe, expect, test } from 'vitest';
import { changed, commensal, example, file, REFUSED } from '../cli/command.js';
import { filesUnder, textOf } from '../support/repository.js';
import { checkedCase } from './found.js';
import { allRules } from './keys.js';
import { cases } from './situations.js';
import { spoken } from './spoken.js';

const catalogues: readonly Catalogue[] = [en, de, ja];
const others = catalogues.filter((catalogue) => catalogue !== en);

const sentencesOf = ({ language }: Catalogue): Record<string, string> => JSON.parse(textOf(`packages/report/messages/${language}.json`));
const english = sentencesOf(en);

/** The slots of a sentence, wherever they stand, and the words that each choice in it has a branch for. */
interface Needs {
  readonly slots: Set<string>;
  readonly branches: Map<string, Set<string>>;
}

function needsOf(tokens: readonly Token[], needs: Needs = { slots: new Set(), branches: new Map() }): Needs {
  for (const token of tokens) {
    if (token.type === 'content' || token.type === 'octothorpe') continue;
    needs.slots.add(token.arg);
    if (token.type === 'argument' || token.type === 'function') continue;
    for (const { key, tokens: inner } of token.cases) {
      // How many forms a number takes differs from language to language; the words of the data do not.
      if (token.type === 'select') needs.branches.set(token.arg, (needs.branches.get(token.arg) ?? new Set()).add(key));
      needsOf(inner, needs);
    }
  }
  return needs;
}

/** What one sentence prints, as opposed to what it only chooses by. */
function printedBy(tokens: readonly Token[]): string[] {
  return tokens.flatMap((token) =>
    token.type === 'argument'
      ? [token.arg]
      : token.type === 'select' || token.type === 'plural' || token.type === 'selectordinal'
        ? token.cases.flatMap(({ tokens: inner }) => printedBy(inner))
        : [],
  );
}

/** In an order of its own, so that two of them can be compared. */
const told = ({ slots, branches }: Needs): unknown => ({
  slots: [...slots].sort(),
  branches: [...branches].map(([slot, keys]) => [slot, [...keys].sort().join(' ')].join(': ')).sort(),
});

test('every file of messages is a language that is tested here', () => {
  const files = filesUnder('packages/report/messages').map((name) => name.replace(/^.*\/([\w-]+)\.json$/, '$1'));
  expect(files.sort()).toEqual(catalogues.map(({ language }) => language).sort());
});

describe.each(others.map((catalogue) => [catalogue.language, catalogue] as const))('%s', (_, catalogue) => {
  const sentences = sentencesOf(catalogue);

  test('has the keys of English, and each is compiled', () => {
    expect(Object.keys(sentences).sort()).toEqual(Object.keys(english).sort());
    expect(Object.keys(catalogue.messages).sort()).toEqual(Object.keys(english).sort());
  });

  test('fills each sentence with what English fills it with, and has its branches', () => {
    const needed = (all: Record<string, string>): unknown =>
      Object.fromEntries(Object.keys(english).map((key) => [key, told(needsOf(parse(all[key] ?? '')))]));
    expect(needed(sentences)).toEqual(needed(english));
  });

  test('asks for every rule', () => {
    expect(allRules.length).toBeGreaterThan(10);
    for (const rule of allRules) expect(sayQuestion(catalogue, rule)).not.toBe(rule.question);
  });
});

test('English asks what the rules themselves ask', () => {
  expect(Object.keys(english).filter((key) => key.startsWith('question.')).length).toBe(allRules.length);
  for (const rule of allRules) expect(english[`question.${rule.id}`]).toBe(rule.question);
});

test.each(catalogues.map((catalogue) => [catalogue.language, catalogue] as const))(
  'in %s every rule says how it judges, and nothing else does',
  (_, catalogue) => {
    const told = Object.keys(catalogue.messages).filter((key) => key.startsWith('how.'));
    expect(told.sort()).toEqual(allRules.map(({ id }) => `how.${id}`).sort());
    for (const rule of allRules) expect(sayHow(catalogue, rule)).toMatch(/[.。?]$/);
  },
);

test('a rule that no catalogue knows asks in its own words', () => {
  expect(sayQuestion(de, { id: 'someone-elses', question: 'Is it so?' })).toBe('Is it so?');
});

test('every word that a sentence prints has a text, unless it is the name of a family', () => {
  const words = cases.flatMap((one) =>
    checkedCase(one).findings.flatMap(({ message, data }) =>
      printedBy(parse(english[message] ?? '')).flatMap((slot) => data[slot]?.keys ?? []),
    ),
  );
  expect(new Set(words).size).toBeGreaterThan(40);
  const lacking = words.filter((word) => !word.endsWith('idae') && !has(en, `word.${word}`) && !has(en, `field.${word}`));
  expect([...new Set(lacking)]).toEqual([]);
});

describe('what is found', () => {
  const inEnglish = spoken('metric');

  test.each(others.map((catalogue) => [catalogue.language, catalogue] as const))('is said in %s', (_, catalogue) => {
    const sayings = spoken('metric', catalogue);
    expect(sayings.length).toBeGreaterThan(1000);
    expect(sayings.map(({ key }) => key)).toEqual(inEnglish.map(({ key }) => key));
    const wrong = sayings.filter(
      ({ text }, at) => text === inEnglish[at]?.text || /[{}]|\bnone\b|undefined|NaN|\[object|\s\s|\s[.,;:)]|\(\s|\(\)|\.\./.test(text),
    );
    expect(wrong.map(({ key, text }) => `${key}: ${text}`)).toEqual([]);
  });
});

describe('the command line', () => {
  const quay = file(JSON.stringify(example()), 'quay.situation.json');

  const crowded = changed((situation) => {
    situation.residents = [
      { id: 'lion', species: 'pterois-volitans', length: { value: 14, unit: 'cm' }, enteredOn: '2026-12-01' },
      { id: 'clown', species: 'amphiprion-ocellaris', length: { value: 4.5, unit: 'cm' }, enteredOn: '2026-12-01' },
    ];
  });

  test('checks in German, with its dates and decimal commas', () => {
    const { out } = commensal(['check', crowded, '--lang', 'de', '--notes']);
    expect(out).toContain('Prüfung vom 1. März 2027');
    expect(out).toMatch(/\d,\d cm/);
    expect(out).not.toMatch(/\d\.\d (cm|l)\b|Check of|What was found/);
  });

  test('plans in German', () => {
    const { code, out } = commensal(['plan', quay, '--lang', 'de']);
    expect(code).toBe(0);
    expect(out).toContain('Was einzieht und wann');
    expect(out).not.toContain('What goes in');
  });

  test('asks in German', () => {
    expect(commensal(['rules', '--lang', 'de']).out).toContain('Kann eines dieser Tiere das andere verschlucken?');
    expect(commensal(['rules', 'gape', '--lang', 'de']).out).toContain('Fragt\n  Kann eines dieser Tiere das andere verschlucken?');
  });

  test.each(['check', 'plan', 'rules'])('%s speaks English unless told otherwise, and JSON holds no language', (command) => {
    const input = command === 'rules' ? 'gape' : quay;
    expect(commensal([command, input, '--lang', 'en'])).toEqual(commensal([command, input]));
    const json = [command, input, '--format', 'json'];
    expect(commensal([...json, '--lang', 'de'])).toEqual(commensal(json));
  });

  test.each(catalogues.map((catalogue) => [catalogue.language, catalogue] as const))('speaks %s', (language, catalogue) => {
    const { out } = commensal(['rules', '--lang', language]);
    expect(out).toContain(catalogue.messages['rules.heading']?.({}));
  });

  test.each(['check', 'plan', 'rules'])('%s in a language that is not there is a bad call', (command) => {
    const { code, out, err } = commensal([command, command === 'rules' ? 'gape' : quay, '--lang', 'xx']);
    expect({ code, out }).toEqual(REFUSED);
    expect(err).toContain(`Allowed choices are ${catalogues.map(({ language }) => language).join(', ')}`);
  });
});
