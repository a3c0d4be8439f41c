/** Cautions in every language: they end in seeking help, name the source of what they advise, and dose nothing. */
import { type Catalogue, cited, say } from '@commensal/report';
import { de } from '@commensal/report/de';
import { en } from '@commensal/report/en';
import { ja } from '@commensal/report/ja';
import { bibliography } from '@commensal/species-sample';
import { describe, expect, test } from 'vitest';
import { CAUTION_SOURCES } from '../../packages/core/src/check/cautions.js';

const SLOTS = { speciesList: 'Wick', hotLimit: '45°C' };
const KINDS = ['venom', 'toxin', 'bite', 'sting', 'cut'] as const;

interface Words {
  readonly medical: RegExp;
  readonly veterinary: RegExp;
  readonly law: RegExp;
  readonly release: RegExp;
}

const WORDS: Readonly<Record<string, Words>> = {
  en: { medical: /medical advice|a doctor|call for help/, veterinary: /veterinarian/, law: /rules where you live/, release: /^Never set/ },
  de: { medical: /[äÄ]rztlich|Notruf/, veterinary: /Tierarzt/, law: /Vorschriften am Wohnort/, release: /^Nie .* aussetzen/ },
  ja: { medical: /医師|救急/, veterinary: /獣医師/, law: /お住まいの地域の規則/, release: /決して放さないで/ },
};

const keys = Object.keys(en.messages).filter((key) => key.startsWith('caution.'));

/** What is said of them comes from a source that the sentence names. */
const FIRST_AID = ['palytoxin', 'venom'];

const isAbout = (key: string, about: string): boolean => key === `caution.${about}` || key.startsWith(`caution.${about}.`);

/** The last sentence; a stop within brackets ends none. */
const lastOf = (text: string): string =>
  text
    .replaceAll(/[(（][^)）]*[)）]/g, '')
    .split(/(?<=[.。])\s*/)
    .filter((part) => part !== '')
    .at(-1) ?? '';

describe.each([en, de, ja].map((catalogue) => [catalogue.language, catalogue] as const))('%s', (language, catalogue: Catalogue) => {
  const words = WORDS[language] as Words;
  const text = (key: string): string => say(catalogue, key, SLOTS);

  test('whatever can hurt ends in seeking medical help', () => {
    const dangers = keys.filter((key) => KINDS.some((kind) => key.startsWith(`caution.${kind}.`)));
    expect(dangers).toHaveLength(2 * KINDS.length);
    for (const key of [...dangers, 'caution.palytoxin', 'caution.electricity']) expect(lastOf(text(key)), key).toMatch(words.medical);
  });

  test('hot water is first aid, with its limit, and from a source', () => {
    for (const severity of ['painful', 'dangerous']) expect(text(`caution.venom.${severity}`)).toContain('45°C');
    expect(keys.filter((key) => text(key).includes('45°C'))).toEqual(['caution.venom.dangerous', 'caution.venom.painful']);
  });

  test('what to do for a person names its source, by author and year', () => {
    const advice = keys.filter((key) => FIRST_AID.some((about) => isAbout(key, about)));
    expect(advice).toHaveLength(3);
    for (const key of advice) {
      const about = FIRST_AID.find((one) => isAbout(key, one)) ?? '';
      for (const source of CAUTION_SOURCES[about] ?? ['none']) {
        const item = bibliography.find(({ id }) => id === source);
        if (item === undefined) throw new Error(`no bibliography entry has the id "${source}"`);
        const [author = '', year = ''] = /^(\S+) et al\. \((\d{4})\)/.exec(cited(item))?.slice(1) ?? [];
        expect(author, source).not.toBe('');
        expect(text(key)).toContain(author);
        expect(text(key)).toContain(year);
      }
    }
    expect(keys.filter((key) => /\b(19|20)\d\d/.test(text(key)))).toEqual(advice);
  });

  test('nothing is dosed', () => {
    expect(keys.filter((key) => /\d\s*(mg|g|ml|mL|µg|ppm|%|drops?|Tropfen|滴|錠)/.test(text(key)))).toEqual([]);
  });

  test('illness is for a veterinarian, law and wiring for the rules of the place, release never', () => {
    expect(text('caution.medication')).toMatch(words.veterinary);
    expect(text('caution.medication')).toMatch(/^Wick/);
    for (const key of ['caution.protected', 'caution.electricity']) expect(text(key), key).toMatch(words.law);
    expect(text('caution.electricity')).toContain('30 mA');
    expect(text('caution.neverRelease')).toMatch(words.release);
  });
});
