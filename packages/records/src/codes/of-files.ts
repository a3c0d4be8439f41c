import { type Codes, codesOf } from './code.js';

/** Of a file that cannot be read as JSON; nothing else is looked at then. */
export const OF_FILES: Codes = codesOf('file', 'error', {
  'duplicate-key': [
    'A name is given twice in one object.',
    'Of two members with one name every reader keeps only one, most the second, and the other is lost without a word.',
    'Keep the one that is right.',
  ],
  'empty-file': ['The file is empty.', 'It must hold a document in JSON.', 'Fill it, or delete it.'],
  'no-such-file': [
    'The file is not there.',
    'Its name is wrong, a link leads to a file that is not there, or the file went away meanwhile.',
    'Check the name, or mend the link.',
  ],
  'not-a-file': [
    'It is named like a file but is none.',
    'A folder or a device has the name.',
    'Name a file in it, or give it another name.',
  ],
  'not-json': [
    'The text is not JSON.',
    'Programs read none of it, however small the slip.',
    'Look at the place named and just before it: a comma, a quote or a bracket too many or too few, a comment, single quotes, a comma behind the last member.',
  ],
  'not-utf-8': [
    'The text is not in UTF-8.',
    'JSON is written in UTF-8; other encodings turn letters into signs.',
    'Save the file again with that encoding.',
  ],
  unreadable: ['The file or folder cannot be read.', 'The machine refuses it.', 'Check its permissions.'],
});
