import { InvalidArgumentError, Option } from 'commander';
import { type Depth, DEPTHS } from '@commensal/report';
import { type Language, languages } from './languages.js';

/** Options that commands share. */
export interface SharedOptions {
  readonly species?: string;
  readonly format: 'text' | 'markdown' | 'json';
  readonly out?: string;
  readonly units: 'metric' | 'us';
  readonly lang: Language;
  readonly depth?: Depth;
  readonly asOf?: string;
  readonly strict?: boolean;
  readonly notes?: boolean;
}

export const speciesOption = (): Option =>
  new Option('--species <folder>', 'folder of species records to use instead of the sample that ships inside').argParser(nonEmpty);
export const formatOption = (): Option => new Option('--format <format>', 'what to print').choices(['text', 'json']).default('text');
export const reportFormatOption = (): Option =>
  new Option('--format <format>', 'what to print').choices(['text', 'markdown', 'json']).default('text');
export const outOption = (): Option => new Option('--out <file>', 'write to this file instead of standard output').argParser(nonEmpty);
export const unitsOption = (): Option =>
  new Option('--units <units>', 'units to print in; JSON is always metric').choices(['metric', 'us']).default('metric');
export const langOption = (): Option =>
  new Option('--lang <language>', 'language to print in; JSON holds keys and numbers, no sentences')
    .choices(languages)
    .default(languages[0]);
export const depthOption = (): Option =>
  new Option(
    '--depth <depth>',
    'whom the text is for: sentences for a keeper (unless told otherwise), their figures as well for an adviser, what those rest on as well for a researcher; JSON holds findings whole whatever the depth',
  ).choices(DEPTHS);
export const asOfOption = (): Option => new Option('--as-of <date>', 'take the situation on another day, such as 2027-03-01');
export const strictOption = (): Option => new Option('--strict', 'also exit with 1 where something serious cannot be told');
export const notesOption = (): Option => new Option('--notes', 'also print what is only good to know');

/** Commander reports what this throws as a bad call. */
export function nonEmpty(text: string): string {
  if (text.trim() === '') throw new InvalidArgumentError('It is empty.');
  return text;
}
