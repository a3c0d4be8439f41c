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

/** What an animal can be harmed as; the words say what the harmer goes for. */
export const TARGETS = [
  'fishes',
  'small-fishes',
  'slow-fishes',
  'shrimps',
  'small-shrimps',
  'crabs',
  'hermit-crabs',
  'snails',
  'urchins',
  'anemones',
  'stony-corals',
  'soft-corals',
  'clams',
  'sponges',
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
      exceptions: list(ref('exception'), 'What a check would doubt in this record and is right as it stands.', { minItems: 1 }),
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
    perDay: quantity('PerDay', 'How often a day.', units.perDay, above(0, 48)),
    food: { type: 'string', description: 'A food.', enum: FOODS },
    feedShare: quantity('FeedShare', 'Wet food a day over body weight.', units.ratio, above(0, 1)),
    lengthWeight: grounded(
      'LengthWeight',
      'Weight in grams from length in centimetres: a L^b.',
      {
        a: { type: 'number', description: 'Factor a, for lengths in centimetres and weights in grams.', exclusiveMinimum: 0, maximum: 1 },
        b: { type: 'number', description: 'Exponent b.', minimum: 2.5, maximum: 3.5 },
        lengthType,
      },
      ['a', 'b'],
    ),

    exception: closed(
      'Exception',
      'A figure or a word that looks wrong and is right.',
      {
        code: slug('Code of the problem that is not to be reported.'),
        at: {
          type: 'string',
          description: 'JSON Pointer of the place it is reported at, or of something around it.',
          pattern: '^(/[^/]+)+$',
          maxLength: 200,
        },
        reason: text('Why it is right as it stands.', 300),
      },
      ['code', 'at', 'reason'],
    ),

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
      maximum: ref('length', 'The greatest length on record: for danger, never for room.'),
      maximumElsewhere: list(
        ref('length', 'The greatest length that another source gives.'),
        'Greatest lengths that other sources give. Nothing is computed from them; they show how far sources agree.',
        { minItems: 1 },
      ),
      captiveAdult: ref('length', 'The length that adults usually reach in tanks: for room and needs.'),
      entry: ref('length', 'The length at which it is usually sold.'),
      totalPerStandard: ref('lengthRatio', 'Total length over standard length.'),
      totalPerFork: ref('lengthRatio', 'Total length over fork length.'),
      weight: ref('lengthWeight', 'Weight in grams from length in centimetres: a L^b.'),
      weightElsewhere: list(
        ref('lengthWeight', 'Weight in grams from length in centimetres, as another source gives it.'),
        'Weights from length that other sources give. Nothing is computed from them; they show how far sources agree.',
        {
          minItems: 1,
        },
      ),
    }),
    growth: closed('Growth', 'The von Bertalanffy curve.', {
      asymptoticLength: ref('length', 'The mean length that growth runs out at (L infinity): a mean of a population, not a cap.'),
      rate: ref('growthRate', 'How fast that length is approached (K), a year; rather from otoliths than from length frequencies.'),
    }),
    shape: closed('Shape', 'Depth, width and mouth.', {
      bodyDepth: ref('shapeRatio', 'Greatest depth of the body without fins, over its length.'),
      bodyWidth: ref('shapeRatio', 'Greatest width of the body, over its length.'),
      lowerJaw: ref('shapeRatio', 'Length of the lower jaw, over the length of the body.'),
      gapeWidth: ref(
        'shapeRatio',
        'Width of the open mouth, over the length of the body. The width of the closed mouth of a museum specimen is not it.',
      ),
      swallowTrial: ref('shapeRatio', 'Depth of the deepest prey that was seen to be swallowed, over the length of the predator.'),
      defendedDepth: ref('shapeRatio', 'Depth of the body with spines up or inflated, over its length.'),
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
        {
          foods: list({ type: 'string', ...ref('food', 'A food.') }, 'Its foods.', { minItems: 1, uniqueItems: true }),
          small: list(
            { type: 'string', ...ref('food', 'A food.') },
            'Those of its foods that it takes only as tiny animals, far smaller than itself.',
            {
              minItems: 1,
              uniqueItems: true,
            },
          ),
        },
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
      specialist: grounded(
        'Specialist',
        'The one food it lives on.',
        {
          food: ref('food', 'The food.'),
          obligate: { type: 'boolean', description: 'It starves without it.' },
        },
        ['food', 'obligate'],
      ),
      feedings: ref('perDay', 'How often a day it must be fed.'),
      dailyFeed: ref('feedShare', 'Wet food that it eats a day, over its weight.'),
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
          lookAlikes: pugnacityStep('To animals that look like it.'),
          smaller: pugnacityStep('To fishes much smaller than itself.'),
          maleToMale: pugnacityStep('Of a male to another male of its species, where that differs.'),
          femaleToFemale: pugnacityStep('Of a female to another female of its species, where that differs.'),
          maleToFemale: pugnacityStep('Of a male to a female of its species and of a female to a male, where that differs.'),
        },
        ['ownKind', 'genus', 'kin', 'others', 'newcomers'],
      ),
      resembles: grounded(
        'LookAlikes',
        'What it is taken for, by others or by its own kind.',
        { species: list(slug('Id of a species.'), 'The species.', { minItems: 1, uniqueItems: true }) },
        ['species'],
      ),
      harms: list(
        ref('harm'),
        'What it does to others besides swallowing them whole and fighting with them; empty where it is known to do nothing.',
      ),
      escapes: statement(
        'Escapes',
        'Whether it leaves the tank.',
        oneOf(['jumps', 'climbs', 'stays'], 'jumps: over an open edge. climbs: out through any gap. stays: neither.'),
      ),
      rockClaim: ref('volume', 'Litres of rock, as an envelope, that an adult holds against others.'),
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
    harm: grounded(
      'Harm',
      'One thing an animal does to others.',
      {
        how: oneOf(['eats', 'crushes', 'tears', 'nips', 'stings'], 'The way.'),
        what: list({ type: 'string', description: 'A target.', enum: TARGETS }, 'Whom it does it to.', { minItems: 1, uniqueItems: true }),
        harm: oneOf(['kills', 'wounds', 'pesters'], 'What comes of it.'),
        often: oneOf(['as-a-rule', 'at-times'], 'Whether it is its habit or only happens.'),
        upToShare: { type: 'number', description: 'Only to animals up to this share of its own length.', exclusiveMinimum: 0, maximum: 20 },
      },
      ['how', 'what', 'harm', 'often'],
    ),
    shelterNeed: grounded(
      'ShelterNeed',
      'A shelter.',
      {
        kind: oneOf(['sand-bed', 'burrow', 'cave', 'hole', 'branches'], 'The sort of shelter.'),
        optional: { type: 'boolean', description: 'It does without.' },
      },
      ['kind'],
    ),
    partner: grounded(
      'Partner',
      'A species it lives together with, without harm to either.',
      {
        species: slug('Id of the species.'),
        kind: oneOf(
          ['host', 'guest', 'burrow-mate'],
          'host: the other is its home. guest: the other lives in or on it. burrow-mate: they share a burrow.',
        ),
        optional: { type: 'boolean', description: 'It does without.' },
      },
      ['species', 'kind', 'optional'],
    ),
    needs: closed('Needs', 'What it must be given.', {
      careTier: ref('careTier', 'How hard it is to keep: 1 most keepers succeed, 2 some do, 3 usually fails without special provision.'),
      provisions: ref('provisions', 'What must be arranged for it.'),
      temperature: ref('temperature', 'The range in which it is kept.'),
      temperatureLimits: ref('temperature', 'The range outside of which it is harmed.'),
      salinity: ref('salinity', 'The practical salinity in which it is kept.'),
      acidity: ref('acidity', 'The pH in which it is kept.'),
      light: statement('LightNeed', 'How much light it wants.', oneOf(['dim', 'moderate', 'strong', 'any'], 'The light.')),
      flow: statement('FlowNeed', 'How much flow it wants.', oneOf(['gentle', 'moderate', 'strong', 'any'], 'The flow.')),
      sandDepth: ref('length', 'How deep the sand must be.'),
      sandGrain: statement('SandGrain', 'The sand it can dig or sleep in.', oneOf(['fine', 'coarse', 'any'], 'The grain.')),
      shelter: list(ref('shelterNeed'), 'What it hides or lives in.', { minItems: 1 }),
      partners: list(ref('partner'), 'Species it lives together with.', { minItems: 1 }),
      tankAge: ref('duration', 'How long the tank must have been cycled before it enters.'),
      ifCaptiveBred: closed('IfCaptiveBred', 'What changes for tank-raised animals.', {
        careTier: ref('careTier', 'How hard tank-raised animals are to keep.'),
        provisions: ref('provisions', 'What must be arranged for tank-raised animals.'),
      }),
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
          basis: oneOf(['measured', 'recalled'], 'measured: read in the list itself. recalled: from memory or second hand, check it.'),
          source: slug('Key of an entry in the bibliography.'),
          url: { ...text('The page of the assessment, as it was seen.', 200), pattern: '^https?://\\S+$' },
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
      note: text('What else a keeper should know of its protection.', 300),
    }),
    lifeCycle: closed('LifeCycle', 'Sexes, age and breeding.', {
      sexChange: statement(
        'SexChange',
        'Whether and which way it changes sex.',
        oneOf(['female-to-male', 'male-to-female', 'both-ways', 'none', 'both-at-once'], 'The way.'),
      ),
      longevity: ref('duration', 'The age it reaches.'),
      captiveBred: statement(
        'CaptiveBred',
        'How often tank-raised animals are on offer.',
        oneOf(['usual', 'sometimes', 'rare'], 'How often.'),
      ),
    }),
  },
};
