/**
 * The parts that several documents share, written once. `npm run schema` turns these modules into the
 * JSON Schema files under `packages/schema/schemas/<version>/`; each of those files stands on its own.
 */

export const VERSION = '1.0';
/** What the address of every schema of every version begins with. */
export const ROOT = 'https://commensal.example/schema';
export const BASE = `${ROOT}/${VERSION}`;

/** A part that is defined apart. Where several properties have it, each says with a description what it is there. */
export const ref = (name, description) => ({ $ref: `#/$defs/${name}`, ...(description === undefined ? {} : { description }) });

/** An object that knows all its properties. */
export const closed = (title, description, properties, required = [], more = {}) => ({
  title,
  description,
  type: 'object',
  properties,
  ...(required.length > 0 ? { required } : {}),
  additionalProperties: false,
  ...more,
});

export const described = (schema, description) => ({ ...schema, description });

const SLUG = '^[a-z0-9]+(-[a-z0-9]+)*$';
export const slug = (description) => ({ type: 'string', description, pattern: SLUG, maxLength: 80 });
export const text = (description, maxLength = 500) => ({ type: 'string', description, minLength: 1, maxLength });
export const date = (description) => ({
  type: 'string',
  description,
  pattern: '^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$',
});
export const list = (items, description, more = {}) => ({ type: 'array', description, items, ...more });
export const oneOf = (values, description) => ({ type: 'string', description, enum: values });

export const schemaPointer = (name) => ({
  type: 'string',
  description: 'The schema this document follows.',
  const: `${BASE}/${name}.schema.json`,
});

/** What a number or a statement rests on: the same six fields everywhere. */
const groundsProperties = {
  basis: {
    type: 'string',
    description:
      'measured: published for this species. derived: computed from published values, formula named. imputed: a stand-in from genus, family or feeding guild. practice: common practice of the trade, no source. recalled: from memory, unchecked.',
    enum: ['measured', 'derived', 'imputed', 'practice', 'recalled'],
  },
  source: slug('Key of an entry in the bibliography; it must also stand in the list "sources" of the record.'),
  formula: text('How a derived value was computed.', 200),
  from: oneOf(['genus', 'family', 'guild'], 'The group whose figures stand in for the species.'),
  searched: {
    type: 'string',
    description: 'The month in which a published figure was last looked for and not found.',
    pattern: '^[0-9]{4}-(0[1-9]|1[0-2])$',
  },
  note: text('What a reader of this figure should know.', 300),
};

/** measured and imputed need a source, derived a formula, imputed a group; practice and recalled have no source. */
const groundsRules = [
  when('basis', 'measured', { required: ['source'] }),
  when('basis', 'derived', { required: ['formula', 'source'] }),
  when('basis', 'imputed', { required: ['from', 'source'] }),
  whenAny('basis', ['practice', 'recalled'], { properties: { source: false } }),
  whenAny('basis', ['measured', 'imputed', 'practice', 'recalled'], { properties: { formula: false } }),
  whenAny('basis', ['measured', 'derived', 'practice', 'recalled'], { properties: { from: false } }),
];

export function when(property, value, then) {
  return { if: { properties: { [property]: { const: value } }, required: [property] }, then };
}
function whenAny(property, values, then) {
  return { if: { properties: { [property]: { enum: values } }, required: [property] }, then };
}

/** Definitions that every document with quantities carries: they are checked once and referred to. */
export const groundsDefinitions = {
  grounds: {
    title: 'Grounds',
    description: 'What a figure rests on.',
    type: 'object',
    properties: groundsProperties,
    allOf: groundsRules,
  },
  band: {
    title: 'Band',
    description: 'Either value, or low and high, or all three.',
    type: 'object',
    dependentRequired: { low: ['high'], high: ['low'], interval: ['low'] },
    anyOf: [{ required: ['value'] }, { required: ['low'] }],
  },
};
const groundsNames = Object.fromEntries(Object.keys(groundsProperties).map((name) => [name, true]));

const number = (description, range) => ({ type: 'number', description, ...range });

/** A number with its unit, its band and its grounds. Either `value`, or `low` and `high`, or all three. */
export const quantity = (title, description, units, range, more = {}) =>
  closed(
    title,
    description,
    {
      value: number('The central value.', range),
      low: number('Lower end of the band: the central 80 % unless "interval" says otherwise.', range),
      high: number('Upper end of the band.', range),
      unit: { type: 'string', description: 'UCUM code of the unit.', enum: units },
      interval: oneOf(['central-80', 'range'], 'What low and high bound: the central 80 % (default), or the whole observed range.'),
      ...more,
      ...groundsNames,
    },
    ['unit', 'basis'],
    { allOf: [ref('grounds'), ref('band')] },
  );

/** A word or a whole number with its grounds. */
export const statement = (title, description, value) =>
  closed(title, description, { value, ...groundsNames }, ['value', 'basis'], { allOf: [ref('grounds')] });

/** Several numbers or words that share their grounds. */
export const grounded = (title, description, properties, required = []) =>
  closed(title, description, { ...properties, ...groundsNames }, [...required, 'basis'], { allOf: [ref('grounds')] });

/** What a keeper reads off a tape, a scale or a bottle: a number with a unit, or a range. */
export const reading = (title, description, units, range) =>
  closed(
    title,
    description,
    {
      value: number('The reading.', range),
      low: number('Lower end, where a range is meant.', range),
      high: number('Upper end, where a range is meant.', range),
      unit: { type: 'string', description: 'UCUM code of the unit.', enum: units },
    },
    ['unit'],
    { allOf: [ref('band')] },
  );

export const above = (least, most) => ({ exclusiveMinimum: least, maximum: most });
export const between = (least, most) => ({ minimum: least, maximum: most });

export const units = {
  length: ['cm', 'mm', '[in_i]'],
  volume: ['L', '[gal_us]'],
  mass: ['kg', 'g', '[lb_av]'],
  temperature: ['Cel', '[degF]'],
  rate: ['/a'],
  ratio: ['1'],
  time: ['a', 'd'],
  perDay: ['/d'],
  area: ['m2'],
  massPerDay: ['g/d', 'mg/d'],
};

export const lengthType = oneOf(
  ['TL', 'SL', 'FL', 'DM', 'SH'],
  'TL total length (default), SL standard length, FL fork length; for animals without a tail DM diameter and SH shell length.',
);

/** Left alone by every command, for whoever embeds the library. */
export const extensions = {
  type: 'object',
  description: 'Room for others: keys are vendor names; left alone by every command.',
  propertyNames: { pattern: SLUG },
  additionalProperties: true,
};

/** One of several objects, told apart by `kind`. The list of kinds stands apart, so that a wrong word is one fault that names the right ones. */
export const oneKindOf = (title, description, branches) => ({
  title,
  description,
  type: 'object',
  properties: {
    kind: { type: 'string', description: 'Which it is.', enum: Object.values(branches).map((branch) => branch.properties.kind.const) },
  },
  required: ['kind'],
  discriminator: { propertyName: 'kind' },
  oneOf: Object.keys(branches).map((name) => ref(name)),
});
