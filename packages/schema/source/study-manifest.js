import { BASE, closed, list, oneOf, ref, schemaPointer, text } from './parts.js';

const hash = (description) => ({ type: 'string', description, pattern: '^[0-9a-f]{64}$' });
const count = (description) => ({ type: 'integer', description, minimum: 0 });

/** What stands beside the parts of a study: what they belong to, and how to read them. */
export const studyManifest = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/study-manifest.schema.json`,
  ...closed(
    'StudyManifest',
    'What the parts in a folder belong to. All shards of a study have the same.',
    {
      $schema: schemaPointer('study-manifest'),
      title: text('Title of the study.', 200),
      study: hash('SHA-256 of the study, as JSON with its keys in order and no spaces.'),
      records: hash('SHA-256 of the species records and stand-ins.'),
      given: hash('SHA-256 of the table that gives the scenarios.'),
      seed: count('What all draws start from.'),
      format: oneOf(['parquet', 'csv', 'ndjson'], 'Format of the parts.'),
      scenarios: count('Scenarios of the study.'),
      replicates: { type: 'integer', description: 'Runs of the design among them.', minimum: 1 },
      blockScenarios: { type: 'integer', description: 'Scenarios of a part; the last may have fewer.', minimum: 1 },
      blocks: count('Parts of the study.'),
      columns: list(ref('studyColumn'), 'Columns of the parts, in their order.', { minItems: 1 }),
      versions: ref('versions'),
    },
    ['$schema', 'study', 'records', 'seed', 'format', 'scenarios', 'replicates', 'blockScenarios', 'blocks', 'columns', 'versions'],
  ),
  $defs: {
    studyColumn: closed(
      'StudyColumn',
      'A column of the parts.',
      {
        name: text('Its name.', 200),
        kind: oneOf(
          ['number', 'integer', 'day', 'code'],
          'day: whole days after the day of the situation. code: one of the words in "codes".',
        ),
        unit: text('UCUM code of its unit.', 20),
        codes: list(text('A word.', 80), 'Words that it can hold.', { minItems: 1 }),
        of: oneOf(['scenario', 'variable', 'output'], 'What it tells of.'),
        description: text('What it is.', 1000),
      },
      ['name', 'kind', 'of', 'description'],
    ),
    versions: closed(
      'MadeWith',
      'What the parts were made with.',
      {
        code: text('Version of the library.', 40),
        schema: text('Version of the schema.', 40),
        data: text('Release of the species records.', 40),
      },
      ['code', 'schema', 'data'],
    ),
  },
};
