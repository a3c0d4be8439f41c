import { above, BASE, between, closed, groundsDefinitions, list, oneOf, quantity, ref, schemaPointer, slug, text, units } from './parts.js';

const cslName = closed('CslName', 'A name.', {
  family: text('Family name.', 200),
  given: text('Given names.', 200),
  literal: text('Name of a body.', 300),
});

/** The items of a CSL-JSON file that the project uses; every file that passes is CSL-JSON 1.0. */
export const bibliography = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/bibliography.schema.json`,
  title: 'Bibliography',
  description: 'Sources as CSL-JSON items.',
  type: 'array',
  items: ref('item'),
  $defs: {
    name: cslName,
    cslDate: closed(
      'CslDate',
      'A date.',
      {
        'date-parts': {
          type: 'array',
          description: 'Year, month, day.',
          items: {
            type: 'array',
            description: 'One date: year, then month, then day.',
            items: { type: 'integer', description: 'The year, the month or the day.' },
            minItems: 1,
            maxItems: 3,
          },
          minItems: 1,
          maxItems: 2,
        },
      },
      ['date-parts'],
    ),
    item: closed(
      'CslItem',
      'One source.',
      {
        id: slug('Key by which records name the source.'),
        type: oneOf(['article-journal', 'book', 'chapter', 'dataset', 'report', 'thesis', 'webpage', 'software'], 'CSL type.'),
        title: text('Title.', 500),
        author: list(ref('name', 'An author.'), 'Authors.', { minItems: 1 }),
        editor: list(ref('name', 'An editor.'), 'Editors.', { minItems: 1 }),
        issued: ref('cslDate'),
        'container-title': text('Journal, book or series.', 300),
        volume: text('Volume.', 40),
        issue: text('Issue.', 40),
        page: text('Pages.', 60),
        publisher: text('Publisher.', 300),
        version: text('Version.', 60),
        DOI: { type: 'string', description: 'DOI without resolver.', pattern: '^10\\.[0-9]{4,9}/\\S+$' },
        URL: { type: 'string', description: 'Web address.', pattern: '^https?://\\S+$' },
        license: text('Licence of the data taken from it.', 120),
        note: text('What was seen of it and what it gives.', 600),
      },
      ['id', 'type', 'title'],
    ),
  },
};

export const standIns = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/stand-ins.schema.json`,
  ...closed(
    'StandIns',
    'Figures of genera, families and feeding guilds that stand in for what a record lacks.',
    {
      $schema: schemaPointer('stand-ins'),
      groups: list(ref('group'), 'The groups.', { minItems: 1 }),
      errors: list(ref('error'), 'How far off stand-ins are, left out one at a time.', { minItems: 1 }),
    },
    ['$schema', 'groups', 'errors'],
  ),
  $defs: {
    ...groundsDefinitions,
    shapeRatio: quantity('StandInRatio', 'A ratio.', units.ratio, above(0, 3), {
      per: oneOf(['SL', 'TL'], 'The length it is a share of.'),
    }),
    rate: quantity('StandInRate', 'Growth coefficient, a year.', units.rate, between(0.03, 16)),
    group: closed(
      'StandInGroup',
      'A genus, a family or a feeding guild.',
      {
        rank: oneOf(['genus', 'family', 'guild'], 'What sort of group.'),
        name: text('Its name.', 60),
        totalPerStandard: ref('shapeRatio', 'Total length over standard length.'),
        bodyDepth: ref('shapeRatio', 'Greatest depth of the body over its length.'),
        bodyWidth: ref('shapeRatio', 'Greatest width of the body over its length.'),
        lowerJaw: ref('shapeRatio', 'Length of the lower jaw over the length of the body.'),
        gapeWidth: ref('shapeRatio', 'Width of the open mouth over the length of the body.'),
        growthRate: ref('rate'),
      },
      ['rank', 'name'],
    ),
    error: closed(
      'StandInError',
      'Error of a stand-in.',
      {
        figure: oneOf(['bodyDepth', 'bodyWidth', 'lowerJaw', 'gapeWidth', 'totalPerStandard', 'growthRate'], 'Of what.'),
        rank: oneOf(['genus', 'family', 'guild'], 'Taken from what.'),
        median: { type: 'number', description: 'Median relative error.', exclusiveMinimum: 0, maximum: 5 },
        percentile90: { type: 'number', description: '90th percentile of the relative error.', exclusiveMinimum: 0, maximum: 5 },
        basis: oneOf(['measured', 'derived', 'practice', 'recalled'], 'What it rests on.'),
        source: slug('Key of an entry in the bibliography.'),
        note: text('What a reader should know.', 300),
      },
      ['figure', 'rank', 'percentile90', 'basis'],
    ),
  },
};
