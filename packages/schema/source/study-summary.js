import { BASE, closed, list, oneOf, ref, schemaPointer, text } from './parts.js';

const count = (description) => ({ type: 'integer', description, minimum: 0 });
const number = (description) => ({ type: 'number', description });
const share = (description) => ({ type: 'number', description, minimum: 0, maximum: 1 });

const counted = {
  count: count('In how many scenarios it is so.'),
  of: count('Of how many.'),
  share: share('The share; left out without scenarios.'),
  low: share('Lower end of its 95 % interval (Wilson).'),
  high: share('Upper end of its 95 % interval.'),
};
const COUNTED = ['count', 'of', 'low', 'high'];

/** What `commensal whatif --merge` prints as JSON. */
export const studySummary = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/study-summary.schema.json`,
  ...closed(
    'StudySummaryDocument',
    'What comes out of a study.',
    {
      $schema: schemaPointer('study-summary'),
      title: text('Title of the study.', 200),
      design: oneOf(
        ['grid', 'monte-carlo', 'latin-hypercube', 'sobol', 'halton', 'sensitivity', 'given'],
        'How its scenarios were laid out.',
      ),
      replicates: { type: 'integer', description: 'How often the design was run.', minimum: 1 },
      scenarios: count('Scenarios in all.'),
      invalid: count('Scenarios in which a figure came out that cannot be; they count in nothing else.'),
      outputs: list(ref('outputSummary'), 'Column by column.'),
      versions: ref('versions'),
    },
    ['$schema', 'design', 'replicates', 'scenarios', 'invalid', 'outputs', 'versions'],
  ),
  $defs: {
    outputSummary: closed(
      'ColumnSummary',
      'What comes out in one column.',
      {
        column: text('Its name.', 200),
        description: text('What it is.', 1000),
        kind: oneOf(['number', 'integer', 'day', 'code'], 'day: whole days after the day of the situation.'),
        unit: text('UCUM code of its unit.', 20),
        codes: list(ref('codeCount'), 'How often each word comes out, those that do.'),
        told: ref('countedShare', 'In how many scenarios there is a figure; of days, in how many it happens at all.'),
        mean: number('Mean of the figures; left out without any.'),
        standardDeviation: number('Their standard deviation; left out of fewer than two.'),
        standardError: number('Standard error of the mean, or of the share that fails, from the spread between replicates.'),
        least: number('The least.'),
        greatest: number('The greatest.'),
        quantiles: list(ref('quantile'), 'Quantiles, with straight lines between neighbours.'),
        by: list(ref('alongVariable'), 'How it changes along each variable.'),
        sensitivity: list(ref('shareOfVariance'), 'Shares of its variance that come from each variable.'),
      },
      ['column', 'description', 'kind', 'by'],
    ),
    countedShare: closed('CountedShare', 'A share of scenarios.', counted, COUNTED),
    codeCount: closed('CodeCount', 'How often a word comes out.', { code: text('The word.', 80), ...counted }, ['code', ...COUNTED]),
    quantile: closed(
      'SummaryQuantile',
      'A quantile.',
      { at: share('Share of the figures that lie below it.'), value: number('The figure there.') },
      ['at', 'value'],
    ),
    alongVariable: closed(
      'AlongVariable',
      'How an output changes along a variable.',
      {
        variable: text('Name of the variable.', 200),
        groups: list(ref('variableGroup'), 'Its values, or tenths of what was drawn.', { minItems: 2 }),
      },
      ['variable', 'groups'],
    ),
    variableGroup: closed(
      'VariableGroup',
      'Scenarios in which a variable has a value, or lies between two.',
      {
        value: number('The value.'),
        word: text('The word.', 80),
        from: number('Above this; the first tenth has none.'),
        to: number('Up to this; the last tenth has none.'),
        scenarios: count('How many there are.'),
        counted: ref('countedShare', 'In how many of them it fails or happens.'),
        mean: number('Mean of the output in them.'),
      },
      ['scenarios'],
    ),
    shareOfVariance: closed(
      'ShareOfVariance',
      'Share of the variance of an output that comes from a variable.',
      {
        variable: text('Name of the variable.', 200),
        first: number('From the variable alone: first-order Sobol index.'),
        total: number('With all its interplay: total Sobol index.'),
        firstError: number('Half width of the 95 % interval of the first-order index.'),
        totalError: number('Half width of the 95 % interval of the total index.'),
      },
      ['variable', 'first', 'total', 'firstError', 'totalError'],
    ),
    versions: closed(
      'SummarizedWith',
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
