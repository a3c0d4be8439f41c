import { type Codes, codesOf } from './code.js';

/** Of a document that its schema does not take, or that does not agree with itself. */
export const OF_SCHEMA: Codes = codesOf('record', 'error', {
  'band-order': [
    'The ends of a band are not in order, or a value lies outside its band.',
    'A band bounds what is known: findings look at its ends.',
    'Correct the number that is wrong: `low` must not lie above `high`, and `value` not outside the two.',
  ],
  'duplicate-id': [
    'Two of a kind have one id.',
    'An id leads to one record, one animal or one entry of the bibliography; the other would never be found.',
    'Keep one, or give one of them an id of its own. Ids that were published stay as they are.',
  ],
  'duplicate-item': [
    'An entry of a list stands there twice.',
    'It says nothing new, and mostly another one was meant.',
    'Take one of the two out.',
  ],
  'earlier-schema': [
    'The record follows an earlier version of the schema.',
    'Names and places of properties may have changed since.',
    '`commensal records migrate` brings it here and loses nothing. Where no migration begins at that version, correct `$schema`.',
  ],
  'later-schema': [
    'The record follows a later version of the schema.',
    'What is right in it, only a commensal that knows that version can tell.',
    'Upgrade. To use the record meanwhile is possible, without what is new in it.',
  ],
  'missing-property': [
    'A property that every record needs is missing.',
    'Programs lean on it.',
    'Add it. What has to be there is in the schema, and an editor shows it.',
  ],
  'name-mismatch': [
    'Id, genus and scientific name do not agree.',
    'The id is the scientific name in small letters with hyphens, the genus its first word: whoever knows the name finds the record.',
    'Correct the one that is wrong. The id of a published record stays as it is, and a new name makes a new record.',
  ],
  'needs-also': [
    'Something needs another property beside it.',
    'A number without a basis cannot be weighed, and a measured one without a source cannot be looked up.',
    'Add what is missing, or give the basis that fits: a measured figure needs its source, a derived one its formula and source, an imputed one its group and source; `low` needs `high`.',
  ],
  'no-number': [
    'A quantity has no number.',
    'A unit and a basis alone say nothing.',
    'Give `value`, or `low` and `high`, or all three. Leave the whole quantity out where nothing is known.',
  ],
  'no-such-day': ['The day is not in the calendar.', 'The month has fewer days.', 'Correct the date.'],
  'not-allowed-here': [
    'A property does not go with the basis beside it.',
    'A figure from practice or memory has no source, only a derived one has a formula, only an imputed one a group. A source beside a figure from memory looks better founded than it is.',
    'Take the property out, or give the basis that fits.',
  ],
  'not-in-list': [
    'A word is not one of those in the list.',
    'Rules know only the words of the schema.',
    'Choose one of the words that the message names.',
  ],
  'source-not-listed': [
    'A figure names a source that the list `sources` does not have.',
    'The list is what a reader of the record looks through.',
    'Add the key to `sources`, and the source to the bibliography where it is new; or correct the key.',
  ],
  'source-not-used': [
    'The list `sources` names a source that no figure uses.',
    'It credits work that the record does not rest on, or a figure has lost its source.',
    'Take it out, or name it where it was used.',
  ],
  'too-few': [
    'A list or an object has too few entries.',
    'What is not known is left out; an empty list says that there is nothing.',
    'Fill it in, or take it out.',
  ],
  'too-large': [
    'A number is larger than it can be.',
    'Mostly the unit or the decimal point is wrong, or a percentage stands for a share.',
    'Correct the number, or its unit.',
  ],
  'too-long': ['A text is too long.', 'Pages and messages have room for a sentence or two.', 'Shorten it.'],
  'too-short': ['A text is empty.', 'It says nothing.', 'Fill it in, or take it out.'],
  'too-small': [
    'A number is smaller than it can be.',
    'Mostly the unit or the decimal point is wrong.',
    'Correct the number, or its unit.',
  ],
  'unknown-property': [
    'The schema has no such property here.',
    'Mostly it is a slip of the pen, and no rule would ever read it.',
    'Take the name that the message offers. Room for what the schema does not know is in `extensions`.',
  ],
  'wrong-form': [
    'A text does not have the form it must have.',
    'Programs take it apart, or look it up.',
    'Write it in the form that the message names.',
  ],
  'wrong-type': [
    'A value is of the wrong type.',
    'A number in quotes is a text, and nothing can be computed from it.',
    'Write numbers, true and false without quotes, texts with them.',
  ],
  'wrong-value': [
    'A value is not the one it must be.',
    'It says which schema the document follows, or which kind of thing it is.',
    'Write the one that the message names.',
  ],
});
