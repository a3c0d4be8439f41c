import {
  above,
  between,
  BASE,
  closed,
  date,
  extensions,
  grounded,
  groundsDefinitions,
  lengthType,
  list,
  oneOf,
  quantity,
  ref,
  schemaPointer,
  slug,
  statement,
  text,
  units,
  when,
} from './parts.js';

const RELEASE = { type: 'string', pattern: '^[0-9]{4}\\.[0-9]+$' };

export const FORMS = ['fish', 'shrimp', 'crab', 'hermit-crab', 'snail', 'urchin', 'anemone'];

export const FOODS = [
  'fishes',
  'shrimps',
  'crabs',
  'snails',
  'bivalves',
  'urchins',
  'worms',
  'copepods',
  'zooplankton',
  'corals',
  'anemones',
  'sponges',
  'tunicates',
  'algae',
  'detritus',
  'scales-and-mucus',
  'parasites',
];

export const PROVISIONS = [
  'live-copepods',
  'frequent-feedings',
  'feeding-by-hand',
  'live-food-at-first',
  'algae-to-graze',
  'sponge-food',
  'coral-food',
  'quiet-company',
  'dim-light',
  'strong-light',
  'cooled-water',
  'sand-to-sleep-in',
  'sand-to-sift',
  'burrow-rubble',
  'tight-lid',
  'host-anemone',
  'shrimp-partner',
  'empty-shells',
  'calcium-kept-up',
  'holdfasts',
  'gentle-flow',
  'ledges-and-caves',
];

const pugnacityStep = (description) => ({
  type: 'integer',
  description: `${description} 0 ignores, 1 displays, 2 chases, 3 bites, 4 kills.`,
  minimum: 0,
  maximum: 4,
});

export const species = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/species.schema.json`,
  ...closed(
    'SpeciesRecord',
    'What is known about one species, each figure with its basis and source. What is not known is left out.',
    {
      $schema: schemaPointer('species'),
      id: {
        ...slug('Genus and species in lower case, joined by a hyphen. Never changed, never deleted.'),
        pattern: '^[a-z]+-[a-z]+(-[a-z]+)?$',
      },
      addedIn: { ...RELEASE, description: 'Data release that first held the record.' },
      deprecatedIn: { ...RELEASE, description: 'Data release from which the record should no longer be used.' },
      replacedBy: slug('Id of the record that stands in its place.'),
      taxon: ref('taxon'),
      synonyms: list(text('A scientific name the species also goes by.', 120), 'Other scientific names in use.', {
        uniqueItems: true,
        minItems: 1,
      }),
      vernacularNames: list(ref('vernacularName'), 'Common names, the most usual of each language first.', { minItems: 1 }),
      form: oneOf(FORMS, 'What sort of animal it is.'),
      kinGroup: ref('kinGroup'),
      size: ref('size'),
      growth: ref('growth'),
      shape: ref('shape'),
      feeding: ref('feeding'),
      conduct: ref('conduct'),
      needs: ref('needs'),
      introduction: ref('introductionRole'),
      hazards: list(ref('hazard'), 'What can hurt people or tank mates.', { minItems: 1 }),
      conservation: ref('conservation'),
      lifeCycle: ref('lifeCycle'),
      sources: list(slug('Key of an entry in the bibliography.'), 'Every source the record uses, in alphabetical order.', {
        uniqueItems: true,
      }),
      extensions,
    },
    ['$schema', 'id', 'addedIn', 'taxon', 'vernacularNames', 'form', 'sources'],
    { dependentRequired: { replacedBy: ['deprecatedIn'] } },
  ),
  $defs: {
    ...groundsDefinitions,
    length: quantity('Length', 'A length of the body.', units.length, above(0, 10000), { lengthType }),
    shapeRatio: quantity('ShapeRatio', 'A measure of the body over its length.', units.ratio, above(0, 2), {
      per: oneOf(['SL', 'TL', 'FL', 'DM', 'SH'], 'The length it is a share of; SL when left out.'),
    }),
    lengthRatio: quantity('LengthRatio', 'One length over another.', units.ratio, above(0.5, 3)),
    growthRate: quantity('GrowthRate', 'Growth coefficient K of von Bertalanffy, a year.', units.rate, between(0.03, 16)),
    volume: quantity('Volume', 'A volume.', units.volume, between(0, 100000), { at: oneOf(['adult'], 'The size at which it holds.') }),
    temperature: quantity('Temperature', 'A water temperature or a range of it.', units.temperature, between(-2, 110)),
    salinity: quantity('Salinity', 'Practical salinity or a range of it.', units.ratio, between(0, 50)),
    acidity: quantity('Acidity', 'pH or a range of it.', ['[pH]'], between(6, 9.5)),
    duration: quantity('Duration', 'A span of time.', units.time, above(0, 100000)),

    taxon: closed(
      'Taxon',
      'Where the species stands; names are Darwin Core terms.',
      {
        scientificName: { ...text('Genus and species.', 120), pattern: '^[A-Z][a-z]+ [a-z]+( [a-z]+)?$' },
        scientificNameAuthorship: text('Who named it, and when.', 120),
        genus: { ...text('Genus.', 60), pattern: '^[A-Z][a-z]+$' },
        family: { ...text('Family.', 60), pattern: '^[A-Z][a-z]+$' },
        order: { ...text('Order.', 60), pattern: '^[A-Z][a-z]+$' },
        taxonID: {
          type: 'string',
          description: 'Life science identifier in the World Register of Marine Species.',
          pattern: '^urn:lsid:marinespecies\\.org:taxname:[0-9]+$',
        },
      },
      ['scientificName', 'genus', 'family'],
    ),
    vernacularName: closed(
      'VernacularName',
      'A common name.',
      {
        name: text('The name, in lower case save for proper names.', 80),
        language: { type: 'string', description: 'BCP 47 tag of the language.', pattern: '^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$' },
      },
      ['name', 'language'],
    ),
    kinGroup: statement(
      'KinGroup',
      'The relatives it contests with and goes in together with, where that is not the whole family.',
      slug('Name of the kin group.'),
    ),

    size: closed('Size', 'How long it is.', {
      maximum: ref('length'),
      captiveAdult: ref('length'),
      entry: ref('length'),
      totalPerStandard: ref('lengthRatio'),
      totalPerFork: ref('lengthRatio'),
    }),
    growth: closed('Growth', 'The von Bertalanffy curve.', { asymptoticLength: ref('length'), rate: ref('growthRate') }),
    shape: closed('Shape', 'Depth, width and mouth.', {
      bodyDepth: ref('shapeRatio'),
      bodyWidth: ref('shapeRatio'),
      lowerJaw: ref('shapeRatio'),
      gapeWidth: ref('shapeRatio'),
      swallowTrial: ref('shapeRatio'),
      longSnout: statement('LongSnout', 'Jaws long for picking, not for swallowing: the jaw says nothing about the gape.', {
        type: 'boolean',
        description: 'Whether it is so.',
      }),
      gapeClass: statement(
        'GapeClass',
        'How it gets food down.',
        oneOf(
          ['engulfs', 'distensible', 'notGapeLimited'],
          'engulfs: swallows whole what its mouth takes. distensible: mouth and belly stretch beyond that. notGapeLimited: tears, crushes, nips, scrapes or stings.',
        ),
      ),
    }),

    feeding: closed('Feeding', 'What it eats and how.', {
      mode: statement(
        'FeedingMode',
        'How it feeds.',
        oneOf(
          [
            'ambusher',
            'hunter',
            'picker',
            'plankton-picker',
            'grazer',
            'browser',
            'sand-sifter',
            'crusher',
            'scavenger',
            'filter-feeder',
            'stinger',
          ],
          'The usual way of feeding.',
        ),
      ),
      eats: grounded(
        'Diet',
        'What it eats in nature and would eat in a tank.',
        { foods: list({ type: 'string', description: 'A food.', enum: FOODS }, 'Its foods.', { minItems: 1, uniqueItems: true }) },
        ['foods'],
      ),
      fishEating: statement(
        'FishEating',
        'Whether it eats fishes. Predicted trophic guilds do not count.',
        oneOf(
          ['habitual', 'opportunist', 'noneRecorded'],
          'habitual: fishes are its food. opportunist: takes one when it can. noneRecorded: looked for, no case known.',
        ),
      ),
      pace: statement('FeedingPace', 'How fast it gets to the food.', oneOf(['quick', 'steady', 'slow'], 'Beside tank mates.')),
      cleans: statement('Cleans', 'It picks parasites off others, and predators mostly spare it.', {
        type: 'boolean',
        description: 'Whether it is so.',
      }),
    }),

    conduct: closed('Conduct', 'What it does to others and the room it claims.', {
      pugnacity: grounded(
        'Pugnacity',
        'What is done to whom.',
        {
          ownKind: pugnacityStep('To its own species.'),
          genus: pugnacityStep('To others of its genus.'),
          kin: pugnacityStep('To others of its kin group.'),
          others: pugnacityStep('To other animals.'),
          newcomers: pugnacityStep('To newcomers of any kind.'),
        },
        ['ownKind', 'genus', 'kin', 'others', 'newcomers'],
      ),
      rockClaim: ref('volume'),
      wayOfLiving: statement(
        'WayOfLiving',
        'Where and how it spends the day.',
        oneOf(
          [
            'grazes-rock',
            'perches-on-rock',
            'holes-in-rock',
            'caves-and-ledges',
            'among-branches',
            'above-rock',
            'open-water',
            'over-sand',
            'burrows',
            'in-a-host',
            'crawls-over-all',
            'fixed',
          ],
          'The way of living.',
        ),
      ),
      company: grounded(
        'Company',
        'Whom of its own kind it wants beside it.',
        {
          kind: oneOf(['solitary', 'pair', 'harem', 'group', 'any'], 'The company that works in a tank.'),
          least: { type: 'integer', description: 'Fewest of its kind that should be together.', minimum: 1, maximum: 100 },
          most: { type: 'integer', description: 'Most of its kind that can be together in one ordinary tank.', minimum: 1, maximum: 100 },
          dwindles: { type: 'boolean', description: 'Groups shrink to a pair or a single animal in most tanks.' },
        },
        ['kind'],
      ),
    }),

    needs: closed('Needs', 'What it must be given.', {
      careTier: statement(
        'CareTier',
        'How hard it is to keep: 1 most keepers succeed, 2 some do, 3 usually fails without special provision.',
        { type: 'integer', description: 'The tier.', minimum: 1, maximum: 3 },
      ),
      provisions: grounded(
        'Provisions',
        'What must be arranged for it.',
        {
          list: list({ type: 'string', description: 'A provision.', enum: PROVISIONS }, 'Provisions.', { minItems: 1, uniqueItems: true }),
        },
        ['list'],
      ),
      temperature: ref('temperature'),
      temperatureLimits: ref('temperature'),
      salinity: ref('salinity'),
      acidity: ref('acidity'),
      activity: statement(
        'Activity',
        'How much it swims.',
        oneOf(
          ['roams', 'cruises', 'perches', 'crawls', 'fixed'],
          'roams: covers the whole tank all day. cruises: swims within a part of it. perches: moves in short hops. crawls: walks or creeps. fixed: stays where it sits.',
        ),
      ),
    }),

    introductionRole: statement(
      'IntroductionRole',
      'When it goes in.',
      oneOf(
        ['scavenger', 'ordinary', 'early', 'last'],
        'scavenger: cleans up, goes in first. early: settles better before others. last: takes over the tank and goes in at the end.',
      ),
    ),
    hazard: grounded(
      'Hazard',
      'Something that can hurt.',
      {
        kind: oneOf(
          ['venom', 'toxin', 'bite', 'sting', 'cut'],
          'venom: from spines or fangs. toxin: in skin or flesh. sting: nettle cells. cut: blades or sharp plates. bite: strong jaws.',
        ),
        part: text('Where on the animal.', 80),
        severity: oneOf(['painful', 'dangerous'], 'painful: heals by itself as a rule. dangerous: needs medical help.'),
      },
      ['kind', 'severity'],
    ),
    conservation: closed('Conservation', 'Status in law and in the wild.', {
      iucn: closed(
        'RedListStatus',
        'Category in the IUCN Red List.',
        {
          category: oneOf(['NE', 'DD', 'LC', 'NT', 'VU', 'EN', 'CR', 'EW', 'EX'], 'The category.'),
          year: { type: 'integer', description: 'Year of the assessment.', minimum: 1994, maximum: 2100 },
          basis: oneOf(['measured', 'recalled'], 'measured: read in the list itself. recalled: from memory, check it.'),
          source: slug('Key of an entry in the bibliography.'),
        },
        ['category', 'basis'],
        { allOf: [when('basis', 'measured', { required: ['source', 'year'] })] },
      ),
      cites: closed(
        'CitesListing',
        'Listing under CITES.',
        {
          appendix: oneOf(['I', 'II', 'III'], 'The appendix.'),
          since: date('Day from which the listing holds.'),
          basis: oneOf(['measured', 'recalled'], 'measured: read in the source named. recalled: from memory, check it.'),
          source: slug('Key of an entry in the bibliography.'),
        },
        ['appendix', 'basis'],
        { allOf: [when('basis', 'measured', { required: ['source', 'since'] })] },
      ),
    }),
    lifeCycle: closed('LifeCycle', 'Sexes, age and breeding.', {
      sexChange: statement(
        'SexChange',
        'Whether and which way it changes sex.',
        oneOf(['female-to-male', 'male-to-female', 'both-ways', 'none', 'both-at-once'], 'The way.'),
      ),
      longevity: ref('duration'),
      captiveBred: statement(
        'CaptiveBred',
        'How often tank-raised animals are on offer.',
        oneOf(['usual', 'sometimes', 'rare'], 'How often.'),
      ),
    }),
  },
};
