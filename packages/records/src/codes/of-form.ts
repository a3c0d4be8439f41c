import { type Codes, codesOf } from './code.js';

/** Of the form of a record: `commensal records fix` puts it right. */
export const OF_FORM: Codes = codesOf('form', 'warning', {
  'key-order': [
    'The members of an object are not in the order of the schema.',
    'Records in one order are easier to read and to compare.',
    'Run `commensal records fix`, which puts them in order.',
  ],
  'sources-order': [
    'The list `sources` is not in alphabetical order, or repeats a key.',
    'In one order additions are easy to see.',
    'Run `commensal records fix`, which sorts it.',
  ],
  spacing: [
    'The text is spaced otherwise than records are.',
    'A change of spacing hides the changes that count. Only the first place is told.',
    'Run `commensal records fix`: two spaces a level, one member or item a line, line feeds, one at the end, no byte order mark, as `JSON.stringify(record, null, 2)` does it.',
  ],
  spelling: [
    'A number or a text is spelled otherwise than `JSON.stringify` does it.',
    'Such as 2.50 for 2.5, or an escape for a letter. It means the same. Only the first place is told.',
    'Run `commensal records fix`.',
  ],
  'unit-not-canonical': [
    'A quantity is in another unit than records are kept in.',
    'Lengths are kept in cm, volumes in L, temperatures in Cel, so that records can be compared by eye.',
    'Run `commensal records fix`: it converts all numbers of the quantity, exactly, and rounds once to the nearest number that JavaScript holds.',
  ],
});
