/**
 * The JavaScript of a validator from a schema: Ajv writes it, with some keywords written shorter than its own
 * and every fault pushed by one small function, because the code is sent to browsers (budget: 8 kB gzip for
 * the species schema). A test holds the result against Ajv with nothing changed.
 */
import { createRequire } from 'node:module';
import { build } from 'esbuild';

// Ajv is CommonJS, and its 2020 class tracks evaluated properties, which no schema of ours uses: the plain
// class with the vocabulary of 2020 writes half the code.
const require = createRequire(import.meta.url);
const { Ajv, _, stringify } = require('ajv');
const { getProperty } = require('ajv/dist/compile/codegen/code.js');
const standalone = require('ajv/dist/standalone/index.js').default;
const vocabulary2020 = require('ajv/dist/vocabularies/next.js').default;

const WITHOUT_EFFECT = ['title', 'description', '$schema'];

/** The schema in the keywords of `addCompactKeywords`. Ajv needs the type of list items to compare them fast. */
function compact(node, isItem = false) {
  if (Array.isArray(node)) return node.map((part) => compact(part));
  if (node === null || typeof node !== 'object') return node;
  const out = {};
  for (const [key, value] of Object.entries(node)) {
    if (WITHOUT_EFFECT.includes(key) && typeof value === 'string') continue;
    if (key === 'type' && !isItem && (node.enum !== undefined || node.const !== undefined)) continue;
    if (key === 'properties' || key === '$defs') {
      out[key] = Object.fromEntries(Object.entries(value).map(([name, part]) => [name, compact(part)]));
    } else {
      out[key] = compact(value, key === 'items');
    }
  }
  if (node.allOf?.every((part) => part.if)) {
    delete out.allOf;
    out.conditions = node.allOf.map((part) => part.if);
    out.consequences = node.allOf.map((part) => compact(part.then));
  }
  const { minimum, exclusiveMinimum, maximum, minLength, maxLength, additionalProperties, ...rest } = out;
  if (minimum !== undefined || exclusiveMinimum !== undefined || maximum !== undefined) rest.range = { minimum, exclusiveMinimum, maximum };
  if (minLength > 1 || (minLength !== undefined && maxLength === undefined)) {
    throw new Error(`validatorCode: expected minLength 0 or 1 and a maxLength, received ${minLength} and ${maxLength}`);
  }
  if (maxLength !== undefined) rest.characters = [minLength ?? 0, maxLength];
  if (additionalProperties === false) rest.closed = Object.keys(node.properties);
  else if (additionalProperties !== undefined) rest.additionalProperties = additionalProperties;
  return rest;
}

/** Where two schemas have the same list of words the code holds it once. */
function sharedValues() {
  const byText = new Map();
  return (gen, value) => {
    const text = JSON.stringify(value);
    if (!byText.has(text)) byText.set(text, value);
    return gen.scopeValue('schema', { ref: byText.get(text), code: stringify(value) });
  };
}

function addCompactKeywords(ajv) {
  const shared = sharedValues();
  const error = (params) => ({ message: '', params });

  ajv.removeKeyword('enum');
  ajv.addKeyword({
    keyword: 'enum',
    schemaType: 'array',
    error: error((context) => _`{allowedValues:${shared(context.gen, context.schema)}}`),
    code(context) {
      context.fail(_`!${shared(context.gen, context.schema)}.includes(${context.data})`);
    },
  });
  ajv.addKeyword({
    keyword: 'closed',
    type: 'object',
    schemaType: 'array',
    error: error((context) => _`{unknown:${context.params.key},known:${shared(context.gen, context.schema)}}`),
    code(context) {
      context.gen.forIn('key', context.data, (key) => {
        context.setParams({ key });
        // Comparisons are faster than a search of the list.
        const unknown = context.schema.map((name) => _`${key} !== ${name}`).reduce((all, one) => _`${all} && ${one}`);
        context.gen.if(unknown, () => context.error());
      });
    },
  });
  // A list of if and then, each a comparison with words: Ajv's own `if` would try a schema and take its faults back.
  ajv.addKeyword('conditions');
  ajv.addKeyword({
    keyword: 'consequences',
    type: 'object',
    schemaType: 'array',
    code(context) {
      const { gen, data, schema, parentSchema } = context;
      for (const [index] of schema.entries()) {
        const [[name, { const: word, enum: words = [word] }]] = Object.entries(parentSchema.conditions[index].properties);
        const holds = words.map((each) => _`${data}${getProperty(name)} === ${each}`).reduce((all, one) => _`${all} || ${one}`);
        gen.if(holds, () => context.subschema({ keyword: 'consequences', schemaProp: index }, gen.name('valid')));
      }
    },
  });
  ajv.addKeyword({
    keyword: 'range',
    type: 'number',
    schemaType: 'object',
    error: error((context) => _`{range:${shared(context.gen, context.schema)}}`),
    code(context) {
      const { data, schema } = context;
      const parts = [];
      if (schema.minimum !== undefined) parts.push(_`${data} < ${schema.minimum}`);
      if (schema.exclusiveMinimum !== undefined) parts.push(_`${data} <= ${schema.exclusiveMinimum}`);
      if (schema.maximum !== undefined) parts.push(_`${data} > ${schema.maximum}`);
      context.fail(parts.reduce((all, one) => _`${all} || ${one}`));
    },
  });
  ajv.addKeyword({
    keyword: 'characters',
    type: 'string',
    schemaType: 'array',
    error: error((context) => _`{limits:${shared(context.gen, context.schema)}}`),
    code(context) {
      const { data, schema } = context;
      const [least, most] = schema;
      // A character outside the basic plane is two units of a string but one character.
      const long = _`${data}.length > ${most} && [...${data}].length > ${most}`;
      context.fail(least === 0 ? long : _`${data} === "" || ${long}`);
    },
  });
}

const FAULT =
  /const (err\d+) = \{instancePath(:[^;]*?)?,schemaPath:("[^"]*"),keyword:"([^"]*)",params:([\s\S]*?)(?:,propertyName:key\d+)?\};if\(vErrors === null\)\{vErrors = \[\1\];\}else \{vErrors\.push\(\1\);\}errors\+\+;/g;
const ONE_PARAMETER = /^\{\s*\w+: ?("(?:[^"\\]|\\.)*"|-?[\d.]+|key\d+|schema\d+)\s*\}$/;
const PARENT = /,parentData(?::[^,{}]*)?,parentDataProperty(?::(?:"[^"]*"|[^,{}"]*))?,rootData(?=\})/g;
const JOIN = /vErrors = vErrors === null \? (validate\d+)\.errors : vErrors\.concat\(\1\.errors\);/g;

const HELPERS = `
const addFault = (faults, instancePath, keyword, detail, within) => {
  const fault = { instancePath, keyword, detail, within };
  if (faults === null) return [fault];
  faults.push(fault);
  return faults;
};
const joinFaults = (faults, more) => faults === null ? more : faults.concat(more);
`;

/** The applicator that a reader of the fault must know: the fault may be no mistake by itself. */
function applicatorOf(schemaPath) {
  const applicator = /\/(anyOf|consequences|propertyNames)\//.exec(schemaPath)?.[1];
  return applicator === 'consequences' ? 'then' : applicator;
}

function shortFault(_match, _name, place, schemaPath, keyword, params) {
  const one = ONE_PARAMETER.exec(params);
  const within = applicatorOf(schemaPath);
  const detail = one?.[1] ?? (params === '{}' ? 'undefined' : params);
  return `vErrors=addFault(vErrors,${place?.slice(1) ?? 'instancePath'},${JSON.stringify(keyword)},${detail}${within ? `,${JSON.stringify(within)}` : ''});errors++;`;
}

function shorten(code) {
  const short = code
    .replace('"use strict";', `"use strict";${HELPERS}`)
    .replace(/export default validate\d+;/, '')
    .replace(FAULT, shortFault)
    .replace(PARENT, '')
    .replace(/, ?\{instancePath="", parentData, parentDataProperty, rootData=data\}=\{\}/g, ', instancePath=""')
    .replace(/, ?\{instancePath(?::([^{}]*))?\}\)/g, (_match, place = 'instancePath') => `, ${place})`)
    .replace(JOIN, 'vErrors=joinFaults(vErrors,$1.errors);');
  const left = /const err\d+|parentData|rootData|schemaPath|,"if",/.exec(short);
  if (left !== null) throw new Error(`validatorCode: expected code it knows, received ${short.slice(left.index, left.index + 200)}`);
  return short;
}

/** The text of an ES module that exports `validate`. */
export async function validatorCode(schema) {
  const ajv = new Ajv({
    strict: true,
    strictRequired: false,
    strictTypes: false,
    allErrors: true,
    discriminator: true,
    messages: false,
    inlineRefs: false,
    code: { source: true, esm: true, optimize: 2 },
  });
  ajv.addVocabulary(vocabulary2020);
  addCompactKeywords(ajv);
  const result = await build({
    stdin: { contents: shorten(standalone(ajv, ajv.compile(compact(schema)))), resolveDir: import.meta.dirname, loader: 'js' },
    bundle: true,
    minify: true,
    write: false,
    format: 'esm',
    platform: 'browser',
    target: 'es2022',
  });
  return result.outputFiles[0].text;
}
