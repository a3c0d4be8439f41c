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
import { PROVISIONS } from './species.js';

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
    { kind: { const: 'rock-relaid' }, date: date('The day.') },
    ['kind', 'date'],
  ),
  tankDivided: closed(
    'TankDivided',
    'A divider keeps newcomers and residents apart.',
    { kind: { const: 'tank-divided' }, date: date('First day.'), until: date('Last day.') },
    ['kind', 'date', 'until'],
  ),
  animalRemoved: closed(
    'AnimalRemoved',
    'An animal leaves the tank.',
    { kind: { const: 'animal-removed' }, date: date('The day.'), animal: animalRef },
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
        water: ref('volumeReading'),
        length: ref('lengthReading'),
        width: ref('lengthReading'),
        height: ref('lengthReading'),
        rock: ref('rock'),
        cycledOn: date('Day on which the tank was found to turn ammonia into nitrate.'),
        temperature: ref('temperatureReading'),
        salinity: ref('salinityReading'),
        acidity: ref('acidityReading'),
      },
      ['water'],
    ),
    rock: closed(
      'Rock',
      'The rock animals live in and on: its mass, or its volume to the outer faces.',
      {
        mass: ref('massReading'),
        envelope: ref('volumeReading'),
        grainDensity: ref('densityReading'),
        porosity: ref('shareReading'),
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
        length: ref('bodyLength'),
        measuredOn: date('Day the length was taken; the day of the situation when left out.'),
        enteredOn: date('Day it went into this tank.'),
        sex: oneOf(['female', 'male'], 'Where it is known and matters.'),
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
        length: ref('bodyLength'),
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
        length: ref('bodyLength'),
        sex: oneOf(['female', 'male'], 'Where it is known and matters.'),
      },
      ['species'],
    ),
    event: oneKindOf('TankEvent', 'Something that happens to the tank.', events),
    ...events,
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
          additionalProperties: { type: 'number', description: 'The threshold.' },
        },
      },
      off: list(text('Id of a rule.', 80), 'Rules switched off.', { uniqueItems: true }),
      accepted: list(ref('acceptance'), 'Findings the keeper has accepted.'),
      whenUncertain: oneOf(
        ['avoid', 'allow', 'exclude'],
        'What plan does about a danger it cannot rule out: avoid where there is a choice (default), allow, or exclude.',
      ),
    }),
    acceptance: closed(
      'Acceptance',
      'A finding that is known and accepted.',
      { key: text('Key of the finding.', 2000), reason: text('Why.', 500), until: date('Day on which to look again.') },
      ['key', 'reason'],
    ),
  },
};
