import { type Problem, readSpecies, type SpeciesRecord } from '@commensal/schema';
import { readDocument } from './read-document.js';

/** A record read from a file, and what of it a later version of the schema brought. */
export interface OpenRecord {
  readonly file: string;
  readonly record: SpeciesRecord;
  /** What was left out, with file, line and column. */
  readonly notices: readonly Problem[];
  /** A problem with file, line and column of its pointer. */
  locate(problem: Problem): Problem;
}

/**
 * Reads a record for use, tolerantly: what a later minor version of the schema brought is left out.
 *
 * @throws BadInput where what this version knows is wrong.
 */
export function openRecord(file: string): OpenRecord {
  const { document, parsed } = readDocument<unknown>(file, (data) => [...readSpecies(data).problems]);
  const { record, notices } = readSpecies(document);
  if (record === undefined) throw new Error(`openRecord: expected a record without problems, received ${file}`);
  return { file, record, notices: notices.map((notice) => parsed.locate(notice)), locate: (problem) => parsed.locate(problem) };
}

/** The name of a property without the places in lists: `hazards.kind` for `/hazards/2/kind`. */
const propertyOf = ({ pointer }: Problem): string =>
  pointer
    .split('/')
    .filter((key) => key !== '' && !/^\d+$/.test(key))
    .join('.');

/** One line for each property that was left out, however many records have it; empty where none was. */
export function noticesText(notices: readonly Problem[]): string {
  const byProperty = new Map<string, Problem[]>();
  for (const notice of notices) {
    const property = propertyOf(notice);
    byProperty.set(property, [...(byProperty.get(property) ?? []), notice]);
  }
  return [...byProperty]
    .map(([property, [first, ...others]]) => {
      const place = [first?.file, first?.line, first?.column].filter((part) => part !== undefined).join(':');
      const more = others.length === 0 ? '' : `, and in ${others.length} more ${others.length === 1 ? 'place' : 'places'}`;
      return `${place}  ${first?.code}\n  ${property} is not known to this version of commensal and is left out${more}. ${first?.fix.replace('It is left out. ', '')}\n`;
    })
    .join('');
}
