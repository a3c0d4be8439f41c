import {
  above,
  between,
  BASE,
  closed,
  date,
  extensions,
  groundsDefinitions,
  lengthType,
  list,
  oneKindOf,
  oneOf,
  reading,
  ref,
  schemaPointer,
  slug,
  text,
  units,
} from './parts.js';
import { FOODS, PROVISIONS } from './species.js';

const id = (description) => ({ type: 'string', description, pattern: '^[A-Za-z0-9][A-Za-z0-9_-]*$', maxLength: 60 });
const animalRef = {
  type: 'string',
  description: 'Id of an animal, or id#n for the n-th of a group.',
  pattern: '^[A-Za-z0-9][A-Za-z0-9_-]*(#[1-9][0-9]*)?$',
  maxLength: 70,
};
const species = slug('Id of a species record.');
const count = (description) => ({ type: 'integer', description, minimum: 1, maximum: 1000 });

/** What happens to a tank, by name of its definition. */
const events = {
  rockRelaid: closed(
    'RockRelaid',
    'The rock is taken out and laid anew, so that nobody holds an old territory.',
    { kind: { const: 'rock-relaid', description: 'Which it is.' }, date: date('The day.') },
    ['kind', 'date'],
  ),
  tankDivided: closed(
    'TankDivided',
    'A divider keeps newcomers and residents apart.',
    { kind: { const: 'tank-divided', description: 'Which it is.' }, date: date('First day.'), until: date('Last day.') },
    ['kind', 'date', 'until'],
  ),
  animalRemoved: closed(
    'AnimalRemoved',
    'An animal leaves the tank.',
    { kind: { const: 'animal-removed', description: 'Which it is.' }, date: date('The day.'), animal: animalRef },
    ['kind', 'date', 'animal'],
  ),
};

export const situation = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: `${BASE}/situation.schema.json`,
  ...closed(
    'Situation',
    'A tank on a day: what is in it, who keeps it, what is wished for, what is planned.',
    {
      $schema: schemaPointer('situation'),
      title: text('A name for people.', 200),
      date: date('The day the situation is described for. Ages and lengths count from here.'),
      keeper: ref('keeper'),
      tank: ref('tank'),
      residents: list(ref('resident'), 'What lives in the tank already.'),
      wishes: list(ref('wish'), 'What the keeper would like to add.', { maxItems: 128 }),
      introductions: list(ref('introduction'), 'What is planned to go in, and when.'),
      events: list(ref('event'), 'What else happens to the tank.'),
      settings: ref('settings'),
      extensions,
    },
    ['$schema', 'date', 'tank'],
  ),
  $defs: {
    // A reading has no `interval`.
    band: { ...groundsDefinitions.band, dependentRequired: { low: ['high'], high: ['low'] } },
    lengthReading: reading('LengthReading', 'A length of a tank, of sand or of water.', units.length, above(0, 5000)),
    smallReading: reading('SmallReading', 'A depth or a width that can be 0.', units.length, between(0, 500)),
    bodyLength: {
      ...reading('BodyLength', 'The length of an animal.', units.length, above(0, 1000)),
      properties: { ...reading('', '', units.length, above(0, 1000)).properties, lengthType },
    },
    volumeReading: reading('VolumeReading', 'A volume of water or rock.', units.volume, above(0, 1000000)),
    massReading: reading('MassReading', 'A mass of rock.', units.mass, above(0, 100000)),
    temperatureReading: reading(
      'TemperatureReading',
      'Water temperature; a range for its swing over day and year.',
      units.temperature,
      between(-2, 110),
    ),
    salinityReading: reading('SalinityReading', 'Practical salinity.', units.ratio, between(0, 50)),
    acidityReading: reading('AcidityReading', 'pH.', ['[pH]'], between(4, 11)),
    feedReading: reading('FeedReading', 'A mass of food.', ['g', 'mg', 'kg'], above(0, 1000000)),
    areaReading: reading('AreaReading', 'An area.', units.area, above(0, 100000)),
    turnoverReading: reading('TurnoverReading', 'Ammonia turned over a day, as nitrogen.', units.massPerDay, above(0, 1000000)),
    densityReading: reading('DensityReading', 'Grain density of the rock.', ['kg/L'], between(1, 5)),
    shareReading: reading('ShareReading', 'A share between 0 and 1.', units.ratio, between(0, 0.95)),

    keeper: closed(
      'Keeper',
      'The person who keeps the tank.',
      {
        name: text('What to call the keeper.', 80),
        careTier: { type: 'integer', description: 'Highest care tier kept for a year; 1 for a novice.', minimum: 1, maximum: 3 },
        provisions: list(
          { type: 'string', description: 'A provision.', enum: PROVISIONS },
          'Provisions the keeper has made or will make before the animals come.',
          { uniqueItems: true },
        ),
      },
      ['careTier'],
    ),
    tank: closed(
      'Tank',
      'The tank and what is in it besides animals.',
      {
        water: ref('volumeReading', 'The water in the tank.'),
        length: ref('lengthReading', 'Length of the tank inside.'),
        width: ref('lengthReading', 'Width of the tank inside, from front to back.'),
        height: ref('lengthReading', 'Height of the tank inside.'),
        rock: ref('rock'),
        cycledOn: date('Day on which the tank was found to turn ammonia into nitrate.'),
        temperature: ref('temperatureReading', 'Water temperature; a range for its swing over day and year.'),
        salinity: ref('salinityReading', 'Practical salinity.'),
        acidity: ref('acidityReading', 'pH.'),
        sand: closed('Sand', 'The sand bed.', {
          depth: ref('smallReading', 'Depth of the sand.'),
          grain: oneOf(['fine', 'coarse'], 'fine: runs through the fingers. coarse: rubble and grains that can be picked up.'),
        }),
        shelters: ref('shelters'),
        cover: oneOf(['open', 'net', 'lid'], 'What lies on top.'),
        gap: ref('smallReading', 'Width of the widest gap in or beside the cover.'),
        pumps: oneOf(['guarded', 'unguarded'], 'Whether intakes of pumps and overflows are fenced off.'),
        light: oneOf(['dim', 'moderate', 'strong'], 'The light over the tank.'),
        flow: oneOf(['gentle', 'moderate', 'strong'], 'The flow in most of the tank.'),
        feedingsPerDay: { type: 'integer', description: 'How often it is fed a day.', minimum: 0, maximum: 48 },
        foods: list({ type: 'string', description: 'A food.', enum: FOODS }, 'Foods that are on offer, grown in the tank or given.', {
          uniqueItems: true,
        }),
        feed: closed(
          'Feed',
          'What is fed on a day, as it comes from the packet.',
          { mass: ref('feedReading', 'Mass of the food of a day.'), protein: ref('shareReading', 'Share of protein in it.') },
          ['mass'],
        ),
        filter: closed(
          'Filter',
          'What turns ammonia over: the area of its media, or the rate that was measured.',
          {
            area: ref('areaReading', 'Area of the media.'),
            rate: ref('turnoverReading', 'Ammonia turned over a day, as nitrogen.'),
          },
          [],
          { anyOf: [{ required: ['area'] }, { required: ['rate'] }] },
        ),
        disease: closed(
          'Disease',
          'The last outbreak of a catching disease.',
          {
            lastSeen: date('Day on which it was last seen.'),
            fishlessFrom: date('First day without fish since.'),
            fishlessUntil: date('Last day without fish since.'),
          },
          ['lastSeen'],
          { dependentRequired: { fishlessFrom: ['fishlessUntil'], fishlessUntil: ['fishlessFrom'] } },
        ),
        copper: oneOf(['never', 'removed', 'present'], 'Whether the tank was ever treated with copper.'),
        kept: list(
          oneOf(['stony-corals', 'soft-corals', 'clams', 'sponges', 'macroalgae'], 'What.'),
          'What is kept besides the animals of the list.',
          { uniqueItems: true },
        ),
        holdingTank: closed(
          'HoldingTank',
          'A tank in which newcomers are watched before they go in.',
          {
            water: ref('volumeReading', 'The water in the holding tank.'),
            lots: {
              type: 'integer',
              description: 'How many lots it takes at a time, each apart from the others.',
              minimum: 1,
              maximum: 20,
            },
          },
          ['lots'],
        ),
      },
      ['water'],
    ),
    shelters: closed('Shelters', 'Shelters that can be counted.', {
      caves: { type: 'integer', description: 'Caves and ledges a fish can lie in.', minimum: 0, maximum: 1000 },
      holes: { type: 'integer', description: 'Holes and crevices for small animals.', minimum: 0, maximum: 1000 },
      burrows: { type: 'integer', description: 'Places with rubble in the sand where a burrow can be built.', minimum: 0, maximum: 1000 },
      branches: { type: 'integer', description: 'Branching corals or the like.', minimum: 0, maximum: 1000 },
    }),
    rock: closed(
      'Rock',
      'The rock animals live in and on: its mass, or its volume to the outer faces.',
      {
        mass: ref('massReading', 'Mass of the rock, dry.'),
        envelope: ref('volumeReading', 'Volume of the rock to its outer faces, pores and all.'),
        grainDensity: ref('densityReading', 'Density of the rock without its pores.'),
        porosity: ref('shareReading', 'Share of pores in the rock.'),
      },
      [],
      { anyOf: [{ required: ['mass'] }, { required: ['envelope'] }] },
    ),
    resident: closed(
      'Resident',
      'An animal, or several alike, that lives in the tank.',
      {
        id: id('A short id of your choosing, used in findings.'),
        name: text('What to call it.', 80),
        species,
        count: count('How many alike; 1 when left out.'),
        length: ref('bodyLength', 'How long it is.'),
        measuredOn: date('Day the length was taken; the day of the situation when left out.'),
        enteredOn: date('Day it went into this tank.'),
        sex: oneOf(['female', 'male'], 'Where it is known and matters.'),
        origin: ref('origin', 'Where it comes from.'),
      },
      ['id', 'species'],
    ),
    wish: closed(
      'Wish',
      'A species wanted.',
      {
        species,
        count: {
          type: 'array',
          description: 'Fewest and most that would do; [1, 1] when left out.',
          items: { type: 'integer', description: 'A number of animals.', minimum: 1, maximum: 200 },
          minItems: 2,
          maxItems: 2,
        },
        priority: { type: 'integer', description: 'How much it is wanted, 1 to 10; 5 when left out.', minimum: 1, maximum: 10 },
        must: { type: 'boolean', description: 'It has to be among what goes in: without it there is no plan.' },
        length: ref('bodyLength', 'How long it is when it goes in, or a range.'),
        origin: ref('origin', 'Where it comes from.'),
      },
      ['species'],
    ),
    introduction: closed(
      'Introduction',
      'A day on which animals go in.',
      { date: date('The day.'), animals: list(ref('newcomer'), 'What goes in.', { minItems: 1 }) },
      ['date', 'animals'],
    ),
    newcomer: closed(
      'Newcomer',
      'An animal, or several alike, that goes in.',
      {
        id: id('A short id; the species id when left out.'),
        name: text('What to call it.', 80),
        species,
        count: count('How many alike; 1 when left out.'),
        length: ref('bodyLength', 'How long it is on that day.'),
        sex: oneOf(['female', 'male'], 'Where it is known and matters.'),
        origin: ref('origin', 'Where it comes from.'),
        purchasedOn: date('Day on which it is bought; watched from then on until it goes in.'),
      },
      ['species'],
    ),
    event: oneKindOf('TankEvent', 'Something that happens to the tank.', events),
    ...events,
    origin: oneOf(['captive-bred', 'wild'], 'Where it comes from.'),
    settings: closed('Settings', 'What differs from the defaults.', {
      horizonDays: {
        type: 'integer',
        description: 'How far ahead to look, in days; 1096 (three years) when left out.',
        minimum: 0,
        maximum: 36525,
      },
      thresholds: {
        type: 'object',
        description: 'Thresholds by rule id and option name.',
        additionalProperties: {
          type: 'object',
          description: 'Options of one rule.',
          additionalProperties: { type: 'number', description: 'The threshold.', minimum: 0, maximum: 100000 },
        },
      },
      off: list(text('Id of a rule.', 80), 'Rules switched off.', { uniqueItems: true }),
      accepted: list(ref('acceptance'), 'Findings the keeper has accepted.'),
      whenUncertain: oneOf(
        ['avoid', 'allow', 'exclude'],
        'What plan does about a danger it cannot rule out: avoid where there is a choice (default), allow, or exclude.',
      ),
      priorities: oneOf(
        ['add-up', 'strict'],
        'How plan weighs priorities: they add up (default), or one wish of a higher priority outweighs all of lower ones.',
      ),
      notBefore: date('First day on which plan lets anything go in; as soon as it may when left out.'),
    }),
    acceptance: closed(
      'Acceptance',
      'A finding that is known and accepted.',
      { key: text('Key of the finding.', 2000), reason: text('Why.', 500), until: date('Day on which to look again.') },
      ['key', 'reason'],
    ),
  },
};
