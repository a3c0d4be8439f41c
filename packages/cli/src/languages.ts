import type { Catalogue } from '@commensal/report';
import { de } from '@commensal/report/de';
import { ja } from '@commensal/report/ja';
import { en } from '@commensal/report/en';

/** The languages that text can be printed in; the first is the default. */
export const catalogues: readonly [Catalogue, ...Catalogue[]] = [en, de, ja];

/** @throws RangeError when none has the language; the option lets no such language through. */
export function catalogueOf(language: string): Catalogue {
  const catalogue = catalogues.find((one) => one.language === language);
  if (catalogue === undefined) throw new RangeError(`catalogueOf: expected a language of a catalogue, received "${language}"`);
  return catalogue;
}
