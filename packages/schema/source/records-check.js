import { BASE, closed, list, oneOf, ref, schemaPointer, text } from './parts.js';

const count = (description) => ({ type: 'integer', description, minimum: 0 });
const position = (description) => ({ type: 'integer', description, minimum: 1 });

/** What `commensal records check` prints as JSON. */
export const recordsCheck = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/records-check.schema.json`,
  ...closed(
    'RecordsCheck',
    'What is wrong with species records.',
    {
      $schema: schemaPointer('records-check'),
      records: count('How many files were checked.'),
      problems: list(ref('recordProblem'), 'What is wrong, in the order of files, lines and columns.'),
      summary: ref('problemCounts'),
      versions: ref('checkedWith'),
    },
    ['$schema', 'records', 'problems', 'summary', 'versions'],
  ),
  $defs: {
    recordProblem: closed(
      'RecordProblem',
      'One mistake. "found; allowed. fix" reads as sentences.',
      {
        file: text('The file, as it was named, or below the folder that was named.', 4096),
        line: position('Line of the file; left out where the file as a whole is meant.'),
        column: position('Column of the line, in UTF-16 units.'),
        code: text('What sort of mistake it is: a short word, stable from release to release.', 60),
        level: oneOf(['error', 'warning'], 'error: the record is wrong. warning: it wants a look, or only another form.'),
        pointer: { type: 'string', description: 'JSON Pointer of the place in the record; empty for the whole.', maxLength: 1000 },
        found: text('What was found.', 5000),
        allowed: text('What is allowed.', 5000),
        fix: text('What to do.', 1000),
        help: text('Page of the documentation on this code.', 300),
      },
      ['file', 'code', 'level', 'pointer', 'found', 'allowed', 'fix', 'help'],
      { dependentRequired: { line: ['column'], column: ['line'] } },
    ),
    problemCounts: closed('ProblemCounts', 'How many problems of each level.', { error: count('Errors.'), warning: count('Warnings.') }, [
      'error',
      'warning',
    ]),
    checkedWith: closed(
      'CheckedWith',
      'What the records were checked with.',
      { code: text('Version of the library.', 40), schema: text('Version of the schema.', 40) },
      ['code', 'schema'],
    ),
  },
};
