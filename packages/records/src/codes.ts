/** What a code of a problem means: the same words stand on its page of the documentation. */
export interface RecordCode {
  /** error: the record is wrong. warning: it wants a look, or only another form. */
  readonly level: 'error' | 'warning';
  /** One sentence: what is wrong. */
  readonly says: string;
  /** A few sentences: why it matters, and what to do. */
  readonly more: string;
}

const error = (says: string, more: string): RecordCode => ({ level: 'error', says, more });
const form = (says: string, more: string): RecordCode => ({ level: 'warning', says, more });

/** Of a file that cannot be read as JSON; nothing else is looked at then. */
const OF_FILES: Readonly<Record<string, RecordCode>> = {
  'duplicate-key': error(
    'A name is given twice in one object.',
    'Of two members with one name every reader keeps only one, most the second, and the other is lost without a word. Keep the one that is right.',
  ),
  'empty-file': error('The file is empty.', 'It must hold a record in JSON. Fill it, or delete it.'),
  'no-such-file': error(
    'The file is not there.',
    'A link leads to a file that is not there, or the file went away meanwhile. Mend the link.',
  ),
  'not-a-file': error('It is named like a record but is no file.', 'A folder or a device has the name of a record. Give it another name.'),
  'not-json': error(
    'The text is not JSON.',
    'Look at the place named and just before it: a comma, a quote or a bracket too many or too few, a comment, single quotes, a comma behind the last member.',
  ),
  'not-utf-8': error('The text is not in UTF-8.', 'JSON is written in UTF-8. Save the file again with that encoding.'),
  unreadable: error('The file or folder cannot be read.', 'Check its permissions.'),
};

/** Of a record that its schema does not take, or that does not agree with itself. */
const OF_SCHEMA: Readonly<Record<string, RecordCode>> = {
  'band-order': error(
    'The ends of a band are not in order.',
    '`low` must not lie above `high`, and `value` not outside the two. Correct the number that is wrong.',
  ),
  'duplicate-item': error('An entry of a list stands there twice.', 'Take one of the two out.'),
  'missing-property': error(
    'A property that every record needs is missing.',
    'Add it. What has to be there is in the schema, and an editor shows it.',
  ),
  'name-mismatch': error(
    'Id, genus and scientific name do not agree.',
    'The id is the scientific name in small letters with hyphens, the genus its first word. Correct the one that is wrong; the id of a published record stays as it is, and a new name makes a new record.',
  ),
  'needs-also': error(
    'Something needs another property beside it.',
    'A measured figure needs its source, a derived one its formula and source, an imputed one its group and source; `low` needs `high`. Add what is missing, or give the basis that fits.',
  ),
  'needs-one-of': error('None of several properties is given.', 'One of them must be there. Add it.'),
  'no-number': error(
    'A quantity has no number.',
    'It needs `value`, or `low` and `high`, or all three. Leave the whole quantity out where nothing is known.',
  ),
  'no-such-day': error('The day is not in the calendar.', 'The month has fewer days. Correct the date.'),
  'not-allowed-here': error(
    'A property does not go with the basis beside it.',
    'A figure from practice or memory has no source, only a derived one a formula, only an imputed one a group. Take the property out, or give the basis that fits.',
  ),
  'not-in-list': error('A word is not one of those in the list.', 'Choose one of the words that the message names.'),
  'source-not-listed': error(
    'A figure names a source that the list `sources` does not have.',
    'Add the key to `sources`, and the source to the bibliography where it is new.',
  ),
  'source-not-used': error('The list `sources` names a source that no figure uses.', 'Take it out, or name it where it was used.'),
  'too-few': error('A list or an object has too few entries.', 'Fill it in, or take it out: what is not known is left out.'),
  'too-large': error('A number is larger than it can be.', 'Correct the number, or its unit.'),
  'too-long': error('A text is too long.', 'Shorten it.'),
  'too-many': error('A list has too many entries.', 'Take some out.'),
  'too-short': error('A text is empty.', 'Fill it in, or take it out.'),
  'too-small': error('A number is smaller than it can be.', 'Correct the number, or its unit.'),
  'unknown-property': error(
    'The schema has no such property here.',
    'Mostly a slip of the pen: the message offers the nearest name. Room for what the schema does not know is in `extensions`.',
  ),
  'wrong-form': error('A text does not have the form it must have.', 'Write it in the form that the message names.'),
  'wrong-type': error('A value is of the wrong type.', 'Numbers, true and false stand without quotes, texts with them.'),
  'wrong-value': error('A value is not the one it must be.', 'Write the one that the message names.'),
};

/** Of the form of a record: `commensal records fix` puts it right. */
const OF_FORM: Readonly<Record<string, RecordCode>> = {
  'key-order': form(
    'The members of an object are not in the order of the schema.',
    'Records in one order are easier to read and to compare. `commensal records fix` puts them in order.',
  ),
  'sources-order': form('The list `sources` is not in alphabetical order, or repeats a key.', '`commensal records fix` sorts it.'),
  spacing: form(
    'The text is spaced otherwise than records are.',
    'Two spaces a level, one member or item a line, line feeds, one at the end, no byte order mark: as `JSON.stringify(record, null, 2)` does it. Only the first place is told. `commensal records fix` puts it right.',
  ),
  spelling: form(
    'A number or a text is spelled otherwise than `JSON.stringify` does it.',
    'Such as 2.50 for 2.5, or an escape for a letter. It means the same. Only the first place is told. `commensal records fix` puts it right.',
  ),
  'unit-not-canonical': form(
    'A quantity is in another unit than records are kept in.',
    'Lengths are kept in cm, volumes in L, temperatures in Cel. `commensal records fix` converts all numbers of the quantity, exactly, and rounds once to the nearest number that JavaScript holds.',
  ),
};

/**
 * The codes of problems of records, save those of plausibility, by what they are about.
 *
 * @example
 * RECORD_CODES['key-order']?.level; // 'warning'
 */
export const RECORD_CODES: Readonly<Record<string, RecordCode>> = { ...OF_FILES, ...OF_SCHEMA, ...OF_FORM };
