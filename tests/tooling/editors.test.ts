/**
 * What an editor makes of a record, by the JSON language service that VS Code runs, set up from `.vscode/settings.json` alone and
 * without a network: names and words are offered with what they mean, mistakes are marked where they stand.
 */
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { speciesProblems } from '@commensal/schema';
import { records } from '@commensal/species-sample';
import { describe, expect, it } from 'vitest';
import {
  ClientCapabilities,
  type CompletionItem,
  type Diagnostic,
  getLanguageService,
  type Hover,
  TextDocument,
} from 'vscode-json-languageservice';
import { documents } from '../../packages/schema/source/index.js';
import { editorSettings } from '../../scripts/editor-settings.mjs';
import { filesUnder, root, textOf } from '../support/repository.js';

interface Setting {
  readonly fileMatch: readonly string[];
  readonly url: string;
  readonly schema: object;
}
const settings: readonly Setting[] = JSON.parse(textOf('.vscode/settings.json'))['json.schemas'];

const asked: string[] = [];
const service = getLanguageService({
  clientCapabilities: ClientCapabilities.LATEST,
  schemaRequestService: (uri) => {
    asked.push(uri);
    return Promise.reject(new Error(`no network here: ${uri}`));
  },
});
// As VS Code hands its settings on.
service.configure({
  validate: true,
  schemas: settings.map(({ url, fileMatch, schema }) => ({ uri: url, fileMatch: [...fileMatch], schema })),
});

interface Opened {
  readonly text: string;
  diagnostics(): Promise<{ readonly at: string; readonly message: string }[]>;
  completionAt(needle: string, into: number): Promise<readonly CompletionItem[]>;
  hoverAt(needle: string): Promise<string>;
}

/** A document as it is open in an editor. */
function opened(name: string, text: string): Opened {
  const document = TextDocument.create(`file:///repository/${name}`, 'json', 1, text);
  const parsed = service.parseJSONDocument(document);
  const offsetOf = (needle: string): number => {
    const at = text.indexOf(needle);
    if (at < 0) throw new Error(`opened: expected ${needle} in ${name}`);
    return at;
  };
  return {
    text,
    diagnostics: async () => {
      const found: Diagnostic[] = await service.doValidation(document, parsed);
      return found.map(({ range, message }) => ({
        at: text.slice(document.offsetAt(range.start), document.offsetAt(range.end)),
        message: typeof message === 'string' ? message : message.value,
      }));
    },
    completionAt: async (needle, into) => {
      const list = await service.doComplete(document, document.positionAt(offsetOf(needle) + into), parsed);
      return list?.items ?? [];
    },
    hoverAt: async (needle) => {
      const hover: Hover | null = await service.doHover(document, document.positionAt(offsetOf(needle) + 1), parsed);
      return [hover?.contents ?? []]
        .flat()
        .map((one) => (typeof one === 'string' ? one : one.value))
        .join('\n');
    },
  };
}

const documentation = (items: readonly CompletionItem[]): ReadonlyMap<string, string> =>
  new Map(
    items.map(({ label, documentation: text }) => [label.replaceAll('"', ''), typeof text === 'string' ? text : (text?.value ?? '')]),
  );

const GRAMMA = 'packages/species-sample/records/grammatidae/gramma-loreto.species.json';
const changed = (was: string, is: string): Opened => {
  const text = textOf(GRAMMA);
  if (!text.includes(was)) throw new Error(`changed: expected ${was} in ${GRAMMA}`);
  return opened('gramma-loreto.species.json', text.replace(was, is));
};

describe('the settings', () => {
  it('are what the schema build writes', () => expect(textOf('.vscode/settings.json')).toBe(editorSettings()));

  /** What a schema asks for, without its texts. */
  const constraintsOf = (node: unknown): unknown => {
    if (Array.isArray(node)) return node.map(constraintsOf);
    if (typeof node !== 'object' || node === null) return node;
    return Object.fromEntries(
      Object.entries(node)
        .filter(([key, value]) => !(['title', 'description', 'markdownDescription'].includes(key) && typeof value === 'string'))
        .map(([key, value]) => [key, constraintsOf(value)]),
    );
  };

  it('ask for what the published schemas ask for, under their addresses', () => {
    expect(settings.length).toBe(4);
    for (const { url, schema } of settings) {
      const [, version = '', name = ''] = /\/schema\/([\d.]+)\/([\w-]+\.schema\.json)$/.exec(url) ?? [];
      expect(constraintsOf(schema)).toEqual(constraintsOf(JSON.parse(textOf(`packages/schema/schemas/${version}/${name}`))));
      expect((schema as { $id: string }).$id).toBe(url);
    }
  });

  it('take in every document of the repository that people write, and none has a mark', async () => {
    const matching = (name: string): readonly Setting[] =>
      settings.filter(({ fileMatch }) =>
        fileMatch.some((pattern) => (pattern.startsWith('*') ? name.endsWith(pattern.slice(1)) : path.basename(name) === pattern)),
      );
    const written = [
      ...filesUnder('packages/species-sample').filter(
        (file) => /\.json$/.test(file) && !/package\.json|released-ids|tsconfig|dist\//.test(file),
      ),
      ...filesUnder('examples').filter((file) => file.endsWith('.situation.json')),
    ];
    expect(written.length).toBeGreaterThan(90);
    for (const file of written) {
      expect(matching(file), file).toHaveLength(1);
      expect(await opened(file, textOf(file)).diagnostics(), file).toEqual([]);
    }
    expect(asked).toEqual([]);
  });

  it('work by the name of a file that does not name its schema yet', async () => {
    const items = documentation(await opened('new.species.json', '{\n  \n}\n').completionAt('{', 4));
    expect([...items.keys()]).toEqual(expect.arrayContaining(['$schema', 'id', 'taxon', 'size']));
    const marks = await opened('new.species.json', '{}').diagnostics();
    expect(marks.map(({ message }) => message)).toEqual(expect.arrayContaining(['Missing property "taxon".']));
  });
});

describe('completion', () => {
  it('offers the names of an object, each with what it means, and none that is there', async () => {
    const items = documentation(await changed('"bodyWidth": {', '"": 1, "bodyWidth": {').completionAt('"": 1', 1));
    const { properties } = documents.species.$defs.shape as unknown as { properties: Record<string, unknown> };
    const there = Object.keys(records.find(({ id }) => id === 'gramma-loreto')?.shape ?? {});
    expect([...items.keys()].sort()).toEqual(
      Object.keys(properties)
        .filter((name) => !there.includes(name))
        .sort(),
    );
    for (const [name, text] of items) expect({ name, text }).toEqual({ name, text: expect.stringMatching(/\S{3}/) });
    expect(items.get('gapeWidth')).toContain('open mouth');
    expect(items.get('swallowTrial')).toContain('swallowed');
  });

  it('offers the names of a figure, each with what it means', async () => {
    const items = documentation(await changed('"value": 0.3253,', '"": 1, "value": 0.3253,').completionAt('"": 1', 1));
    expect([...items.keys()].sort()).toEqual(['formula', 'from', 'high', 'interval', 'low', 'note', 'searched']);
    for (const [name, text] of items) expect({ name, text }).toEqual({ name, text: expect.stringMatching(/\S{3}/) });
  });

  it.each([
    ['a basis', '"basis": "recalled"', ['measured', 'derived', 'imputed', 'practice', 'recalled'], 'published for this species'],
    ['a unit', '"unit": "cm"', ['cm', 'mm', '[in_i]'], 'UCUM'],
    ['a type of length', '"lengthType": "TL"', ['TL', 'SL', 'FL', 'DM', 'SH'], 'standard length'],
    ['a form', '"form": "fish"', ['fish', 'shrimp', 'crab', 'hermit-crab', 'snail', 'urchin', 'anemone'], 'animal'],
  ])('offers the words of %s with what they mean', async (_, needle, words, meaning) => {
    const into = needle.lastIndexOf('"', needle.length - 2) + 1;
    const items = documentation(await changed(needle, needle).completionAt(needle, into));
    expect([...items.keys()].sort()).toEqual([...words].sort());
    for (const word of words) expect(items.get(word)).toContain(meaning);
  });
});

describe('marks', () => {
  it.each([
    ['a word that is not in the list', '"form": "fish"', '"form": "fihs"', '"fihs"'],
    ['a unit of another sort', '"unit": "cm"', '"unit": "kg"', '"kg"'],
    ['a name that is not known', '"bodyWidth": {', '"bodyWitdh": {', '"bodyWitdh"'],
    ['a number in quotes', '"value": 0.3253', '"value": "0.3253"', '"0.3253"'],
    ['a number that is too large', '"value": 0.3253', '"value": 32.53', '32.53'],
    ['an id that is no id', '"id": "gramma-loreto"', '"id": "Gramma loreto"', '"Gramma loreto"'],
    [
      'a name of a species without its capital',
      '"scientificName": "Gramma loreto"',
      '"scientificName": "gramma loreto"',
      '"gramma loreto"',
    ],
  ])('%s, and nothing else', async (_, was, is, marked) => {
    expect((await changed(was, is).diagnostics()).map(({ at }) => at)).toEqual([marked]);
  });

  it('a source that is missing, at the figure that needs it', async () => {
    const found = await changed('"basis": "measured",\n      "source": "price-2022"', '"basis": "measured"').diagnostics();
    expect(found).toHaveLength(1);
    expect(found[0]?.message).toContain('source');
    expect(found[0]?.at).toMatch(/^(\{|"bodyDepth")/);
  });
});

describe('hover', () => {
  it.each([
    ['"lowerJaw"', 'Length of the lower jaw'],
    ['"captiveAdult"', 'usually reach in tanks'],
    ['"pugnacity"', 'What is done to whom'],
    ['"ownKind"', 'To its own species'],
    ['"basis"', 'measured: published for this species'],
    ['"source"', 'Key of an entry in the bibliography'],
    ['"taxonID"', 'World Register of Marine Species'],
  ])('over %s says what it is', async (name, words) => {
    expect(await opened('gramma-loreto.species.json', textOf(GRAMMA)).hoverAt(name)).toContain(words);
  });
});

interface Snippet {
  readonly scope: string;
  readonly prefix: string;
  readonly description: string;
  readonly body: string | readonly string[];
}
const snippets: Readonly<Record<string, Snippet>> = JSON.parse(textOf('.vscode/species.code-snippets'));

/** Every text that a snippet comes to: choices give one each, the others stay with their first word. */
function expansions({ body }: Snippet): string[] {
  const text = [body].flat().join('\n');
  const choices = [...text.matchAll(/\$\{(\d+)\|([^|]*)\|\}/g)];
  const plain = (source: string): string =>
    source
      .replaceAll(/\$\{\d+\|([^,|]*)[^|]*\|\}/g, '$1')
      .replaceAll(/\$\{\d+:([^}]*)\}/g, '$1')
      .replaceAll(/(?<!\\)\$\d/g, '')
      .replaceAll('\\$', '$');
  return [plain(text), ...choices.flatMap(([whole, , words = '']) => words.split(',').map((word) => plain(text.replace(whole, word))))];
}

/** Where a snippet is at home: the record is a sample record with what it comes to put there. */
const HOMES: Readonly<Record<string, readonly [place: string, inList: boolean]>> = {
  length: ['size.maximum', false],
  'shape-ratio': ['shape.bodyDepth', false],
  harm: ['conduct.harms', true],
  hazard: ['hazards', true],
  partner: ['needs.partners', true],
  'vernacular-name': ['vernacularNames', true],
};

/** Quantities have a home for each of their units. */
const HOME_OF_UNIT: Readonly<Record<string, string>> = {
  1: 'shape.bodyWidth',
  cm: 'size.maximum',
  mm: 'needs.sandDepth',
  L: 'conduct.rockClaim',
  Cel: 'needs.temperature',
  '/a': 'growth.rate',
  a: 'lifeCycle.longevity',
  d: 'needs.tankAge',
};

function problemsAt(place: string, inList: boolean, value: unknown): string[] {
  const record = structuredClone(records.find(({ id }) => id === 'gramma-loreto')) as unknown as Record<string, unknown>;
  const keys = place.split('.');
  const last = keys.pop() ?? '';
  let here = record;
  for (const key of keys) {
    here[key] ??= {};
    here = here[key] as Record<string, unknown>;
  }
  here[last] = inList ? [value] : value;
  // Which sources there are is nothing that a snippet can know.
  return speciesProblems(record)
    .filter(({ code }) => code !== 'source-not-listed' && code !== 'source-not-used')
    .map(({ code, pointer }) => `${code} ${pointer}`);
}

describe('snippets', () => {
  const list = Object.values(snippets);

  it('are there for quantities of every basis, statements, harms, hazards and partners, under prefixes of their own', () => {
    const prefixes = list.map(({ prefix }) => prefix);
    expect(new Set(prefixes).size).toBe(prefixes.length);
    expect(prefixes).toEqual(
      expect.arrayContaining([
        'quantity-measured',
        'quantity-derived',
        'quantity-imputed',
        'quantity-range',
        'statement',
        'harm',
        'hazard',
        'partner',
      ]),
    );
    for (const { scope, description } of list) {
      expect(scope).toBe('json');
      expect(description).toMatch(/^[A-Z].*\.$/);
    }
  });

  it.each(list)('$prefix comes to JSON whatever is chosen', (snippet) => {
    for (const text of expansions(snippet)) expect(() => JSON.parse(text), text).not.toThrow();
    expect(expansions(snippet).length).toBeGreaterThan(1);
  });

  it.each(list.filter(({ prefix }) => prefix in HOMES))('$prefix is right where it belongs', (snippet) => {
    const [place, inList] = HOMES[snippet.prefix] ?? ['', false];
    for (const text of expansions(snippet)) expect(problemsAt(place, inList, JSON.parse(text)), text).toEqual([]);
  });

  it.each(list.filter(({ prefix }) => prefix.startsWith('quantity')))('$prefix is right for every unit that it offers', (snippet) => {
    for (const text of expansions(snippet)) {
      const figure = JSON.parse(text) as { unit: string; low?: number };
      const place = HOME_OF_UNIT[figure.unit];
      if (place === undefined) throw new Error(`no home for the unit ${figure.unit}`);
      // The numbers are there to be written over.
      const number = place === 'growth.rate' || place === 'shape.bodyWidth' ? { low: 0.3, high: 0.5 } : {};
      expect(problemsAt(place, false, figure.low === undefined ? figure : { ...figure, ...number }), text).toEqual([]);
    }
  });

  it('statement is right with the words of a field', () => {
    for (const text of expansions(snippets['A statement'] as Snippet)) {
      expect(problemsAt('conduct.escapes', false, JSON.parse(text.replace('"word"', '"jumps"'))), text).toEqual([]);
    }
  });

  it('species-record is a record that passes, but for its names', () => {
    for (const text of expansions(snippets['A new species record'] as Snippet)) expect(speciesProblems(JSON.parse(text)), text).toEqual([]);
  });

  it('every one of them is tried', () => {
    const tried = [...Object.keys(HOMES), 'statement', 'species-record'];
    expect(list.map(({ prefix }) => prefix).filter((prefix) => !tried.includes(prefix) && !prefix.startsWith('quantity'))).toEqual([]);
  });
});

it('nothing else lies in the folder of the editor', () => {
  expect(readdirSync(path.join(root, '.vscode')).sort()).toEqual(['settings.json', 'species.code-snippets']);
});
