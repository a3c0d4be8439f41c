/** Walks a schema, alone or along a document: what can be broken, and where in a document each part of the schema speaks. */

const ANNOTATIONS = ['$schema', '$id', 'title', 'description', 'discriminator'];
const ONE_VALUE = [
  'type',
  'enum',
  'const',
  'pattern',
  'minimum',
  'exclusiveMinimum',
  'maximum',
  'minLength',
  'maxLength',
  'minItems',
  'maxItems',
  'minProperties',
  'uniqueItems',
];

const under = (location, ...keys) => [location, ...keys].join('/');
const nameOf = (node) => node.$ref.slice('#/$defs/'.length);

/** The definitions that a discriminator chooses among: their type and kind cannot be wrong by themselves. */
function branchLocations(schema) {
  const found = new Set();
  for (const definition of Object.values(schema.$defs ?? {})) {
    if (definition.discriminator) for (const branch of definition.oneOf) found.add(`#/$defs/${nameOf(branch)}`);
  }
  return found;
}

/**
 * Every constraint of a schema, as { location, keyword, node }: `location` is its place in the schema, `node` the
 * schema it stands in. A condition (`if`) is no constraint; a `required` is one for each name.
 */
export function constraintsOf(schema) {
  const branches = branchLocations(schema);
  const constraints = [];

  function walk(node, location, isBranch = branches.has(location), inAnyOf = false) {
    if (node === true) return;
    const add = (keyword, ...keys) => constraints.push({ location: under(location, ...keys), keyword, node });
    if (node === false) {
      add('false');
      return;
    }
    for (const [key, value] of Object.entries(node)) {
      if (ANNOTATIONS.includes(key) || key === 'if' || key === '$ref' || key === 'oneOf') continue;
      if (key === 'type') {
        if (!isBranch && !inAnyOf) add('type', 'type');
      } else if (ONE_VALUE.includes(key)) {
        add(key, key);
      } else if (key === 'required') {
        if (inAnyOf) continue;
        for (const [index, name] of value.entries()) if (!(isBranch && name === 'kind')) add('required', 'required', index);
      } else if (key === 'dependentRequired') {
        for (const [name, needs] of Object.entries(value)) {
          for (const index of needs.keys()) add('dependentRequired', 'dependentRequired', name, index);
        }
      } else if (key === 'properties' || key === '$defs') {
        for (const [name, part] of Object.entries(value)) {
          if (!(key === 'properties' && isBranch && name === 'kind')) walk(part, under(location, key, name));
        }
      } else if (key === 'additionalProperties') {
        if (value === false) add('additionalProperties', 'additionalProperties');
        else walk(value, under(location, key));
      } else if (key === 'items' || key === 'propertyNames' || key === 'then') {
        walk(value, under(location, key));
      } else if (key === 'allOf') {
        for (const [index, part] of value.entries()) walk(part, under(location, key, index));
      } else if (key === 'anyOf') {
        add('anyOf', 'anyOf');
        for (const [index, part] of value.entries()) walk(part, under(location, key, index), false, true);
      } else {
        throw new Error(`schema-walk: expected a keyword it knows, received ${key} at ${location}`);
      }
    }
  }

  walk(schema, '#');
  return constraints;
}

function holds(condition, value) {
  return (
    (condition.required ?? []).every((name) => Object.hasOwn(value, name)) &&
    Object.entries(condition.properties).every(([name, part]) => (part.enum ?? [part.const]).includes(value[name]))
  );
}

const escapeKey = (key) => String(key).replaceAll('~', '~0').replaceAll('/', '~1');
const isObject = (value) => typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Where the parts of a schema speak of a document: schema location -> [{ pointer, value }]. The document must be
 * right.
 */
export function instancesOf(schema, document) {
  const instances = new Map();

  function walk(node, location, value, pointer) {
    const list = instances.get(location) ?? [];
    list.push({ pointer, value });
    instances.set(location, list);
    if (typeof node === 'boolean') return;
    if (node.$ref) walk(schema.$defs[nameOf(node)], `#/$defs/${nameOf(node)}`, value, pointer);
    for (const key of ['allOf', 'anyOf']) {
      for (const [index, part] of (node[key] ?? []).entries()) walk(part, under(location, key, index), value, pointer);
    }
    if (node.if && holds(node.if, value)) walk(node.then, under(location, 'then'), value, pointer);
    if (node.oneOf) {
      const branch = node.oneOf.find((part) => schema.$defs[nameOf(part)].properties.kind.const === value.kind);
      walk(branch, under(location, 'oneOf'), value, pointer);
    }
    if (Array.isArray(value) && node.items) {
      for (const [index, item] of value.entries()) walk(node.items, under(location, 'items'), item, `${pointer}/${index}`);
    }
    if (!isObject(value)) return;
    if (node.propertyNames) walk(node.propertyNames, under(location, 'propertyNames'), value, pointer);
    for (const [key, member] of Object.entries(value)) {
      const place = `${pointer}/${escapeKey(key)}`;
      if (node.properties && Object.hasOwn(node.properties, key))
        walk(node.properties[key], under(location, 'properties', key), member, place);
      else if (isObject(node.additionalProperties)) walk(node.additionalProperties, under(location, 'additionalProperties'), member, place);
    }
  }

  walk(schema, '#', document, '');
  return instances;
}
