import { BASE, closed, list, oneKindOf, oneOf, ref, schemaPointer, text } from './parts.js';

const number = (description) => ({ type: 'number', description, minimum: -1000000, maximum: 1000000 });
const positive = (description) => ({ type: 'number', description, exclusiveMinimum: 0, maximum: 1000000 });
const kind = (word) => ({ const: word, description: 'Which it is.' });
const ruleId = text('Id of the rule.', 80);
const subjects = list(text('Id of an animal.', 70), 'Only findings that name each of these animals.', {
  minItems: 1,
  uniqueItems: true,
});
const scenarios = {
  type: 'integer',
  description: 'How many scenarios; times the replicates.',
  minimum: 1,
  maximum: 10000000000,
};
const weights = list(positive('A weight.'), 'How often each comes up, in parts of their sum; alike when left out.', {
  minItems: 1,
  maxItems: 10000,
});

/** What a number is drawn from, by name of its definition. */
const spreads = {
  uniform: closed(
    'UniformSpread',
    'Every value of an interval alike.',
    { kind: kind('uniform'), low: number('Lower end.'), high: number('Upper end.') },
    ['kind', 'low', 'high'],
  ),
  normal: closed(
    'NormalSpread',
    'The normal distribution.',
    {
      kind: kind('normal'),
      mean: number('Its mean.'),
      standardDeviation: positive('Its standard deviation.'),
    },
    ['kind', 'mean', 'standardDeviation'],
  ),
  logNormal: closed(
    'LogNormalSpread',
    'The log-normal distribution with this central 80 %, as bands of records have it.',
    {
      kind: kind('log-normal'),
      low: positive('Lower end of the central 80 %.'),
      high: positive('Upper end of the central 80 %.'),
    },
    ['kind', 'low', 'high'],
  ),
  triangular: closed(
    'TriangularSpread',
    'The triangular distribution.',
    {
      kind: kind('triangular'),
      low: number('Least value.'),
      mode: number('Likeliest value.'),
      high: number('Greatest value.'),
    },
    ['kind', 'low', 'mode', 'high'],
  ),
  empirical: closed(
    'EmpiricalSpread',
    'What was observed: quantiles of these values, with straight lines in between.',
    { kind: kind('empirical'), values: list(number('An observed value.'), 'The observed values.', { minItems: 2, maxItems: 10000 }) },
    ['kind', 'values'],
  ),
  list: closed(
    'ListSpread',
    'Any of these numbers.',
    {
      kind: kind('list'),
      values: list(number('A number.'), 'What there is to choose from.', { minItems: 1, uniqueItems: true }),
      weights,
    },
    ['kind', 'values'],
  ),
  words: closed(
    'WordsSpread',
    'Any of these words, such as ids of species.',
    {
      kind: kind('words'),
      words: list(text('A word.', 80), 'What there is to choose from.', { minItems: 1, uniqueItems: true }),
      weights,
    },
    ['kind', 'words'],
  ),
  range: closed(
    'RangeSpread',
    'Numbers in even steps, both ends among them.',
    {
      kind: kind('range'),
      from: number('The first.'),
      to: number('The last there may be.'),
      step: positive('From one to the next.'),
    },
    ['kind', 'from', 'to', 'step'],
  ),
};

const drawn = (title, description, word) => closed(title, description, { kind: kind(word), scenarios }, ['kind', 'scenarios']);

/** How scenarios are laid out, by name of their definition. */
const designs = {
  grid: closed(
    'GridDesign',
    'Every combination.',
    {
      kind: kind('grid'),
      steps: {
        type: 'integer',
        description:
          'How many values stand for a distribution, at the middles of equal shares; 5 when left out. Lists and ranges give all theirs.',
        minimum: 1,
        maximum: 10000,
      },
    },
    ['kind'],
  ),
  monteCarlo: drawn('MonteCarloDesign', 'Each scenario drawn on its own.', 'monte-carlo'),
  latinHypercube: drawn(
    'LatinHypercubeDesign',
    'Each variable in as many equal shares as there are scenarios, each met once.',
    'latin-hypercube',
  ),
  sobol: drawn('SobolDesign', 'Points of a Sobol sequence; best as a power of 2.', 'sobol'),
  halton: drawn('HaltonDesign', 'Points of a Halton sequence.', 'halton'),
  sensitivity: closed(
    'SensitivityDesign',
    'The blocks that shares of variance (Sobol indices) are computed from: points x (variables + 2) scenarios.',
    {
      kind: kind('sensitivity'),
      points: { type: 'integer', description: 'Points of each block; best as a power of 2.', minimum: 2, maximum: 100000000 },
    },
    ['kind', 'points'],
  ),
  given: closed('GivenDesign', 'Scenarios from a table with a column a variable.', { kind: kind('given') }, ['kind']),
};

/** What is measured in each scenario, by name of its definition. */
const outputs = {
  outcome: closed(
    'OutcomeOutput',
    'What a rule comes to at worst, and at which level.',
    { kind: kind('outcome'), rule: { ...ruleId, description: 'Id of the rule; every rule when left out.' }, subjects },
    ['kind'],
  ),
  firstFailure: closed(
    'FirstFailureOutput',
    'First day on which a rule fails, in days after the day of the situation.',
    {
      kind: kind('first-failure'),
      rule: ruleId,
      subjects,
      level: oneOf(['error', 'warning', 'note'], 'Failures of this level and graver ones; all when left out.'),
    },
    ['kind', 'rule'],
  ),
  missingRock: closed('MissingRockOutput', 'Litres of rock that are missing for all territories.', { kind: kind('missing-rock') }, [
    'kind',
  ]),
  peakAmmonia: closed('PeakAmmoniaOutput', 'Highest un-ionised ammonia, as nitrogen.', { kind: kind('peak-ammonia') }, ['kind']),
  bestSet: closed(
    'BestSetOutput',
    'Of the plan: how many animals go in, what the set is worth, whether that is proven best, and how many days the introductions take.',
    { kind: kind('best-set') },
    ['kind'],
  ),
  chosen: closed('ChosenOutput', 'Of the plan: how many of each species go in.', { kind: kind('chosen') }, ['kind']),
};

/** A what-if: a situation with distributions and lists in place of numbers, run many times. */
export const study = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/study.schema.json`,
  ...closed(
    'Study',
    'A what-if: a situation in which numbers vary, run many times.',
    {
      $schema: schemaPointer('study'),
      title: text('A name for people.', 200),
      situation: {
        type: 'object',
        description: 'A situation as its own schema has it. What does not vary stays as it is here.',
        additionalProperties: true,
      },
      vary: list(ref('variable'), 'What varies.', { maxItems: 200 }),
      uncertain: list(
        oneOf(
          ['growth', 'shape', 'lengths'],
          'growth: asymptotic lengths and growth rates of the species, jointly. shape: mouths and bodies of the species. lengths: what animals measure.',
        ),
        'Figures that vary within the band that record or reading gives them, as the central 80 % of a log-normal distribution.',
        { uniqueItems: true },
      ),
      design: oneKindOf('Design', 'How scenarios are laid out.', designs),
      replicates: {
        type: 'integer',
        description: 'How often the design is run, each time with other draws; 1 when left out.',
        minimum: 1,
        maximum: 10000,
      },
      seed: { type: 'integer', description: 'What all draws start from.', minimum: 0, maximum: Number.MAX_SAFE_INTEGER },
      outputs: list(ref('output'), 'What is measured in each scenario.', { minItems: 1, maxItems: 1000 }),
    },
    ['$schema', 'situation', 'design', 'seed', 'outputs'],
  ),
  $defs: {
    variable: closed(
      'StudyVariable',
      'Something that varies, and the places that take its value.',
      {
        name: {
          type: 'string',
          description: 'Name of its column: letters, digits and _, a letter first.',
          pattern: '^[a-z][a-z0-9_]*$',
          maxLength: 60,
        },
        at: list(
          {
            type: 'string',
            description:
              'JSON Pointer: /situation/... into the situation of the study, /species/<id>/... into the record of a species. To a figure with a unit, a number, a day, or a word.',
            pattern: '^/(situation|species)/',
            maxLength: 300,
          },
          'Where the value goes; several places take the same.',
          { minItems: 1, uniqueItems: true },
        ),
        unit: text(
          'UCUM code of the unit that its numbers have where they go to a figure with a unit; d for days after the day of the situation.',
          20,
        ),
        description: text('What it is, for readers of the results.', 300),
        over: oneKindOf('Spread', 'What it is drawn from.', spreads),
      },
      ['name', 'at', 'over'],
    ),
    ...spreads,
    ...designs,
    output: oneKindOf('StudyOutput', 'What is measured.', outputs),
    ...outputs,
  },
};
