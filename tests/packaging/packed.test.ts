/** The packages as a user gets them: packed, installed together elsewhere, and used in every way that a project may. */
import { execFile } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fencesIn } from '../../scripts/docs.mjs';
import { manifestOf, packageFolders, root, textOf } from '../support/repository.js';

interface Packed {
  name: string;
  version: string;
  filename: string;
  files: { path: string }[];
}

const LIBRARIES = ['@commensal/core', '@commensal/records', '@commensal/report', '@commensal/schema', '@commensal/species-sample'];
const MODULES = [
  ...LIBRARIES,
  '@commensal/report/de',
  '@commensal/report/en',
  '@commensal/report/ja',
  '@commensal/schema/validate/species',
  '@commensal/schema/validate/situation',
];
const version = manifestOf('packages/core').version;

let work = '';
let packed: Packed[] = [];
const consumer = (): string => path.join(work, 'consumer');
const tarballOf = (name: string): string => path.join(work, packed.find((one) => one.name === name)?.filename ?? `no tarball of ${name}`);

/** Standard output; on failure an error that carries both streams. */
function run(command: string, args: readonly string[], cwd: string): Promise<string> {
  return new Promise((resolve, reject) => {
    // npm hands its own settings down to whatever it starts; another npm must not take them for its own.
    const env = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^npm_/i.test(name) && name !== 'NODE_OPTIONS'));
    execFile(command, args, { cwd, env, maxBuffer: 2 ** 26 }, (error, stdout, stderr) => {
      if (error) reject(new Error(`${command} ${args.join(' ')}\n${stdout}${stderr}`, { cause: error }));
      else resolve(stdout);
    });
  });
}

const node = (args: readonly string[]): Promise<string> => run(process.execPath, args, consumer());
const tool = (file: string, args: readonly string[], cwd: string): Promise<string> =>
  run(process.execPath, [path.join(root, 'node_modules', file), ...args], cwd);
const write = (name: string, content: string): void => writeFileSync(path.join(consumer(), name), content);

beforeAll(async () => {
  work = mkdtempSync(path.join(tmpdir(), 'commensal-packed-'));
  packed = JSON.parse(await run('npm', ['pack', '--workspaces', '--json', '--pack-destination', work], root));
  mkdirSync(consumer());
  write('package.json', '{ "name": "consumer", "private": true, "type": "module" }\n');
  await run('npm', ['install', '--no-audit', '--no-fund', '--prefer-offline', ...packed.map(({ name }) => tarballOf(name))], consumer());
}, 120_000);

afterAll(() => rmSync(work, { recursive: true, force: true }));

test('all six packages were packed', () => {
  expect(packed.map(({ name }) => name).sort()).toEqual([...LIBRARIES, 'commensal']);
  expect(packed).toHaveLength(packageFolders.length);
});

describe('each tarball', () => {
  test('holds its licence and something built', () => {
    for (const { name, files } of packed) {
      const paths = files.map((file) => file.path);
      expect(paths, name).toContain('LICENSE');
      expect(
        paths.filter((file) => /^dist\/.*\.js$/.test(file)),
        name,
      ).not.toEqual([]);
    }
  });

  test('holds no tests, no sources and no notes of the compiler', () => {
    const unwanted = packed.flatMap(({ name, files }) =>
      files
        .filter(({ path: file }) => /\.test\.|(^|\/)(tests?|src)\/|tsbuildinfo|tsconfig|(?<!\.d)\.ts$/.test(file))
        .map(({ path: file }) => `${name}: ${file}`),
    );
    expect(unwanted).toEqual([]);
  });

  test('points at no source map that is not there', () => {
    const scripts = packed.flatMap(({ name, files }) =>
      files.filter((file) => /\.(js|d\.ts)$/.test(file.path)).map((file) => ({ name, file: file.path })),
    );
    expect(scripts.length).toBeGreaterThan(0);
    const dangling = scripts.flatMap(({ name, file }) => {
      const installed = path.join(consumer(), 'node_modules', name, file);
      const map = /^\/\/[#@] sourceMappingURL=(?!data:)(\S+)\s*$/m.exec(readFileSync(installed, 'utf8'))?.[1];
      return map !== undefined && !existsSync(path.join(path.dirname(installed), map)) ? [`${name}: ${file} -> ${map}`] : [];
    });
    expect(dangling).toEqual([]);
  });

  test('asks for exactly the version of the others that it was packed with', () => {
    const asked = packed.flatMap(({ name }) => {
      const { dependencies = {} } = JSON.parse(readFileSync(path.join(consumer(), 'node_modules', name, 'package.json'), 'utf8'));
      return Object.entries(dependencies).filter(([other]) => LIBRARIES.includes(other));
    });
    expect(asked.length).toBeGreaterThan(0);
    expect(asked).toEqual(asked.map(([other]) => [other, version]));
  });
});

describe('installed together', () => {
  test('one copy of each package is there', () => {
    const modules = path.join(consumer(), 'node_modules');
    expect(readdirSync(path.join(modules, '@commensal')).sort()).toEqual(LIBRARIES.map((name) => name.split('/')[1]));
    const nested = readdirSync(modules, { recursive: true, encoding: 'utf8' }).filter((file) =>
      /node_modules\/(@commensal|commensal)$/.test(file),
    );
    expect(nested).toEqual([]);
  });

  test('an ES module imports every entry', async () => {
    const imports = MODULES.map((name, index) => `import * as m${index} from '${name}';`).join('\n');
    write('static.mjs', `${imports}\nconsole.log([${MODULES.map((_, index) => `Object.keys(m${index}).length`)}].join());\n`);
    const counts = (await node(['static.mjs'])).trim().split(',').map(Number);
    expect(counts).toHaveLength(MODULES.length);
    expect(Math.min(...counts)).toBeGreaterThan(0);
  });

  test('a CommonJS file imports every entry dynamically', async () => {
    write('dynamic.cjs', `Promise.all(${JSON.stringify(MODULES)}.map((name) => import(name))).then((all) => console.log(all.length));\n`);
    expect((await node(['dynamic.cjs'])).trim()).toBe(String(MODULES.length));
  });

  test('a CommonJS file requires every entry', async () => {
    // Node 20.19 and 22.12 onwards can require an ES module that awaits nothing at its top.
    write('required.cjs', `console.log(${JSON.stringify(MODULES)}.map((name) => Object.keys(require(name)).length).join());\n`);
    const counts = (await node(['--no-warnings', 'required.cjs'])).trim().split(',').map(Number);
    expect(Math.min(...counts)).toBeGreaterThan(0);
  });

  test.each([
    ['NodeNext', 'NodeNext'],
    ['ESNext', 'Bundler'],
  ])('TypeScript finds the types: module %s, resolution %s', async (module, moduleResolution) => {
    const name = `types-${moduleResolution.toLowerCase()}`;
    write(
      `${name}.ts`,
      [
        ...MODULES.map((specifier, index) => `import * as m${index} from '${specifier}';`),
        "import type { Plan, Situation, SpeciesRecord } from '@commensal/schema';",
        "import { validate } from '@commensal/schema/validate/situation';",
        'export const all: object[] = [m0, m1, m2, m3, m4, m5, m6];',
        'export const fits: boolean = validate({});',
        'export const idOf = (record: SpeciesRecord): string => record.id;',
        'export type Both = [Situation, Plan];',
        '// @ts-expect-error A boolean is no string: the types are there and are not `any`.',
        'export const wrong: string = validate({});',
        '// @ts-expect-error A species record has no such member.',
        'export const missing = (record: SpeciesRecord) => record.noSuchMember;',
        '',
      ].join('\n'),
    );
    const options = {
      module,
      moduleResolution,
      target: 'ES2022',
      lib: ['ES2022'],
      types: [],
      strict: true,
      noEmit: true,
      skipLibCheck: false,
    };
    write(`tsconfig.${name}.json`, JSON.stringify({ compilerOptions: options, files: [`${name}.ts`] }));
    await tool('typescript/bin/tsc', ['-p', `tsconfig.${name}.json`, '--pretty', 'false'], consumer());
  });

  test('a rule of somebody else is checked, planned with and told, as the page on it says', async () => {
    const page = textOf('docs/a-rule-of-your-own.md').split('\n');
    const blocks = fencesIn(page);
    mkdirSync(path.join(consumer(), 'examples'), { recursive: true });
    write('examples/house-list.rule.mjs', textOf('examples/house-list.rule.mjs'));
    let ran = 0;
    for (const [index, { info, from, to }] of blocks.entries()) {
      if (info !== 'js run') continue;
      write('block.mjs', page.slice(from, to).join('\n'));
      const output = blocks[index + 1];
      expect((await node(['block.mjs'])).trimEnd()).toBe(page.slice(output?.from, output?.to).join('\n'));
      ran += 1;
    }
    expect(ran).toBeGreaterThan(2);
  });

  test('TypeScript takes a rule of somebody else beside ours, and tells what one lacks', async () => {
    write(
      'their-rule.ts',
      [
        "import { type AnyRule, check, libraryOf, plan, PASSED, type Planning, rules, type Rule, type Stock, stockOf, type StockAnimal, type Telling, type Verdict } from '@commensal/core';",
        "import { namesIn, sayFinding, type Sentence, type Voice, withSentences } from '@commensal/report';",
        "import { en } from '@commensal/report/en';",
        "import type { Datum, Finding, Situation, Subject } from '@commensal/schema';",
        'const planning: Planning = "option";',
        'const failed: Verdict = { outcome: "failed", level: "error", message: "quay/door.shut" };',
        'export const door: Rule<StockAnimal, "fromCm"> = {',
        '  id: "quay/door", question: "Does it fit through the door?", scope: "animal", planning,',
        '  monotone: { water: "neither", rock: "neither", fewerAnimals: "neither", delay: "neither" },',
        '  needs: [], sources: [], defaults: { fromCm: { value: 90, unit: "cm", basis: "choice" } },',
        '  measure(stock: Stock, _options, each) { for (const animal of stock.animals) each(animal); },',
        '  judge({ lengthCm }, { fromCm }): Verdict { return (lengthCm?.centre ?? 0) >= fromCm ? failed : PASSED; },',
        '  tell({ id, lengthCm }): Telling {',
        '    const subjects: Subject[] = [{ id, role: "animal" }];',
        '    const length: Datum = { value: lengthCm?.centre ?? 0, unit: "cm" };',
        '    return { subjects, data: { length }, when: null, basis: "practice" };',
        '  },',
        '};',
        'export const all: readonly AnyRule[] = [...rules, door];',
        'export const sentences: Record<string, Sentence> = { "quay/door.shut": "No door for {animal}.", "quay/door.other": ({ length }) => String(length) };',
        'export const text = (situation: Situation): string[] => {',
        '  const library = libraryOf([]);',
        '  const voice: Voice = { catalogue: withSentences(en, sentences), units: "us", names: namesIn(situation, library, "en") };',
        '  const findings: readonly Finding[] = [...check(stockOf(situation, library).stock, [...rules, door]).findings, ...plan(situation, library, [...rules, door]).findings];',
        '  return findings.map((finding) => sayFinding(voice, finding));',
        '};',
        '// @ts-expect-error A threshold that the rule does not have.',
        'export const lacking: Rule<StockAnimal, "fromCm" | "toCm"> = { ...door };',
        '// @ts-expect-error No part in planning.',
        'export const odd: AnyRule = { ...door, planning: "sometimes" };',
        '',
      ].join('\n'),
    );
    const options = {
      module: 'NodeNext',
      target: 'ES2022',
      lib: ['ES2022'],
      types: [],
      strict: true,
      exactOptionalPropertyTypes: true,
      noEmit: true,
    };
    write('tsconfig.their-rule.json', JSON.stringify({ compilerOptions: options, files: ['their-rule.ts'] }));
    await tool('typescript/bin/tsc', ['-p', 'tsconfig.their-rule.json', '--pretty', 'false'], consumer());
  });

  test('the command line says its version', async () => {
    expect((await run('npx', ['--no-install', 'commensal', '--version'], consumer())).trim()).toContain(version);
  });
});

describe('the checkers of packages find nothing wrong', () => {
  test.each(LIBRARIES)('publint: %s', async (name) => {
    await tool('publint/src/cli.js', ['run', tarballOf(name), '--strict'], root);
  });

  test.each(LIBRARIES)('types for ES modules: %s', async (name) => {
    await tool('@arethetypeswrong/cli/dist/index.js', [tarballOf(name), '--profile', 'esm-only', '--no-emoji', '--no-color'], root);
  });
});
