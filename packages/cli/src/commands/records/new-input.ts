import type { Library } from '@commensal/core';
import { type DraftInput, familyOfGenus, formOfFamily, nearFamily, nearName, nextRelease, SCIENTIFIC_NAME } from '@commensal/records';
import type { Problem, SpeciesRecord } from '@commensal/schema';
import { either } from '../../words.js';

/** What the flags of `commensal records new` hold, as they were typed. */
export interface NewOptions {
  readonly species?: string;
  readonly family?: string;
  readonly form?: string;
  readonly english?: string;
  readonly name?: readonly string[];
  readonly maximum?: string;
  readonly lengthType?: string;
  readonly source?: string;
  readonly aphiaId?: string;
  readonly authorship?: string;
  readonly addedIn?: string;
  readonly out?: string;
  readonly dryRun?: boolean;
  readonly input?: boolean;
  readonly format: 'text' | 'json';
}

/** Asks a person; an empty answer is none. */
export type Ask = (question: string) => Promise<string>;

export const FORMS: readonly SpeciesRecord['form'][] = ['fish', 'shrimp', 'crab', 'hermit-crab', 'snail', 'urchin', 'anemone'];
export const LENGTH_TYPES = ['TL', 'SL', 'FL', 'DM', 'SH'] as const;
const UNITS = { cm: 'cm', mm: 'mm', in: '[in_i]', '[in_i]': '[in_i]' } as const;

const bad = (code: string, found: string, allowed: string, fix: string): Problem => ({ code, pointer: '', found, allowed, fix });

const missing = (what: string, flag: string, fix: string): Problem =>
  bad('missing-option', `${what} is not told`, `a record needs it`, `Give ${flag}${fix === '' ? '' : `, ${fix}`}.`);

/** `12cm`, `120 mm`, `4.5in`. */
function lengthIn(text: string): { value: number; unit: 'cm' | 'mm' | '[in_i]' } | undefined {
  const [, number = '', unit = ''] = /^\s*(\d+(?:\.\d+)?)\s*(cm|mm|in|\[in_i\])\s*$/.exec(text) ?? [];
  return number === '' || Number(number) === 0 ? undefined : { value: Number(number), unit: UNITS[unit as keyof typeof UNITS] };
}

const isForm = (text: string): text is SpeciesRecord['form'] => FORMS.some((form) => form === text);
const isLengthType = (text: string): text is (typeof LENGTH_TYPES)[number] => LENGTH_TYPES.some((type) => type === text);

export interface Understood {
  readonly input?: DraftInput;
  readonly problems: readonly Problem[];
  /** What a person should know, and what stops nothing. */
  readonly notices: readonly string[];
}

/**
 * Flags, and answers for what they leave out where there is somebody to ask, as what a draft is made of. All that is wrong or
 * missing is told at once, each with its flag.
 */
export async function understood(
  scientificName: string,
  options: NewOptions,
  library: Library,
  sources: readonly string[],
  ask?: Ask,
): Promise<Understood> {
  const problems: Problem[] = [];
  const notices: string[] = [];
  const answer = async (given: string | undefined, question: string): Promise<string | undefined> => {
    if (given !== undefined || ask === undefined) return given;
    const said = (await ask(question)).trim();
    return said === '' ? undefined : said;
  };

  const genus = scientificName.split(' ')[0] ?? '';
  if (!SCIENTIFIC_NAME.test(scientificName)) {
    problems.push(
      bad(
        'wrong-name',
        `"${scientificName}" is no scientific name`,
        'it must be genus and species in Latin letters, the genus with a capital',
        'Write it in quotes, such as "Halichoeres melanurus", without who named it.',
      ),
    );
    return { problems, notices };
  }

  const near = nearName(scientificName, library);
  if (near.species !== undefined)
    notices.push(`${near.species} has a record already. If that is the species, change that record; this one is beside it.`);
  const meant = near.genus === undefined ? '' : `; if ${near.genus} was meant, start again`;
  const family = options.family ?? familyOfGenus(genus, library) ?? (await answer(undefined, `Family of ${genus}, such as Labridae: `));
  if (family === undefined) problems.push(missing('the family', '--family', `as no record is of the genus ${genus}${meant}`));
  else if (!/^[A-Z][a-z]+$/.test(family)) {
    problems.push(bad('wrong-name', `--family is "${family}"`, 'it must be one word with a capital', 'Write it as in Labridae.'));
  } else {
    const other = nearFamily(family, library);
    if (other !== undefined)
      notices.push(`No record or stand-in is of the family ${family}. If you meant ${other}, start again with --family ${other}.`);
  }

  const form =
    options.form ??
    (family === undefined ? undefined : formOfFamily(family, library)) ??
    (await answer(undefined, `Form (${either(FORMS)}): `));
  if (form === undefined) {
    if (family !== undefined) problems.push(missing('the form', '--form', `which is ${either(FORMS)}`));
  } else if (!isForm(form))
    problems.push(bad('not-in-list', `--form is "${form}"`, `it must be ${either(FORMS)}`, 'Choose one of these words.'));

  const english = await answer(options.english, 'English name, in lower case save for proper names: ');
  if (english === undefined && (options.name ?? []).length === 0)
    problems.push(missing('a common name', '--english', 'or --name with a language, such as --name "de:Gelber Lippfisch"'));
  const others = (options.name ?? []).map((text) => {
    const [, language = '', name = ''] = /^([a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*):\s*(.+)$/.exec(text) ?? [];
    if (language === '')
      problems.push(
        bad(
          'wrong-name',
          `--name is "${text}"`,
          'it must be a language, a colon and a name',
          'Write it as in --name "de:Gelber Lippfisch".',
        ),
      );
    return { name: name.trim(), language };
  });
  const [firstName, ...moreNames] = [...(english === undefined ? [] : [{ name: english, language: 'en' }]), ...others];

  const maximumText = await answer(options.maximum, 'Greatest length on record, such as 12cm (Enter for not known): ');
  const maximum = maximumText === undefined ? undefined : lengthIn(maximumText);
  if (maximumText !== undefined && maximum === undefined) {
    problems.push(
      bad(
        'wrong-length',
        `--maximum is "${maximumText}"`,
        'it must be a number above 0 with cm, mm or in',
        'Write it as in --maximum 12cm.',
      ),
    );
  }
  const typeText =
    maximum === undefined ? options.lengthType : ((await answer(options.lengthType, 'Length type, TL, SL or FL (Enter for TL): ')) ?? 'TL');
  if (typeText !== undefined && !isLengthType(typeText)) {
    problems.push(bad('not-in-list', `--length-type is "${typeText}"`, `it must be ${either(LENGTH_TYPES)}`, 'Choose one of these words.'));
  }
  for (const [flag, value] of [
    ['--length-type', options.lengthType],
    ['--source', options.source],
  ] as const) {
    if (value !== undefined && maximumText === undefined) {
      problems.push(
        bad(
          'needs-also',
          `${flag} is given without --maximum`,
          'it says something of the greatest length',
          `Give --maximum, or leave out ${flag}.`,
        ),
      );
    }
  }
  if (options.source !== undefined && !sources.includes(options.source)) {
    problems.push(
      bad(
        'unknown-source',
        `--source is "${options.source}"`,
        'it must be a key of the bibliography',
        'Run commensal records sources to see the keys, or add an entry first.',
      ),
    );
  }
  if (options.aphiaId !== undefined && !/^\d+$/.test(options.aphiaId)) {
    problems.push(
      bad(
        'wrong-form',
        `--aphia-id is "${options.aphiaId}"`,
        'it must be the number of the species in the World Register of Marine Species',
        'Write the digits alone.',
      ),
    );
  }
  if (problems.length > 0 || family === undefined || form === undefined || !isForm(form) || firstName === undefined)
    return { problems, notices };
  return {
    problems,
    notices,
    input: {
      scientificName,
      family,
      form,
      vernacularNames: [firstName, ...moreNames],
      addedIn: options.addedIn ?? nextRelease(library.release ?? ''),
      ...(options.authorship === undefined ? {} : { scientificNameAuthorship: options.authorship }),
      ...(options.aphiaId === undefined ? {} : { taxonID: `urn:lsid:marinespecies.org:taxname:${options.aphiaId}` }),
      ...(maximum === undefined || typeText === undefined || !isLengthType(typeText)
        ? {}
        : { maximum: { ...maximum, lengthType: typeText, ...(options.source === undefined ? {} : { source: options.source }) } }),
    },
  };
}
