/** One snippet for each thing the linter has to refuse, written apart from biome.json so that dropping a ban there is noticed. */

export interface BanCase {
  /** Where the snippet stands, from the root of the repository. */
  folder: string;
  code: string;
  /** How the linter's message begins: the reason, not only the refusal. */
  says: string;
}

/** Bottom to top; a floor imports only lower ones. */
export const FLOORS: readonly string[] = ['quantity', 'biology', 'stock', 'rules', 'check', 'changes', 'plan', 'trouble', 'whatif'];

const GLOBALS: Record<string, string> = {
  'new Date()': 'Dates are day numbers here',
  'performance.now()': 'No clock here',
  'process.env': 'Only the command line knows its process',
  "console.log('')": 'Only the command line prints',
  'setTimeout(String)': 'Nothing waits here',
  'setInterval(String)': 'Nothing repeats by the clock here',
  'globalThis.crypto': 'globalThis is a back door',
  'crypto.randomUUID()': 'No randomness without a seed: a result must be repeatable.',
  "fetch('')": 'No network here',
  'window.name': 'No page here: this code runs in Node',
  'document.title': 'No page here: text goes out as text',
  "Buffer.from('')": 'Buffer exists in Node only',
};

const PURE = ['packages/core/src', 'packages/schema/src', 'packages/report/src', 'packages/records/src'];

const globals: BanCase[] = PURE.flatMap((folder) =>
  Object.entries(GLOBALS).map(([use, says]) => ({ folder, code: `export const value = ${use};\n`, says })),
);

const randomness: BanCase[] = PURE.map((folder) => ({
  folder,
  code: 'export const value = Math.random();\n',
  says: 'No randomness without a seed: a result must be repeatable, so draws',
}));

const CORE_FOLDERS = ['packages/core/src', ...FLOORS.map((floor) => `packages/core/src/${floor}`)];

const powers: BanCase[] = [
  'export const cube = (side: number): number => side ** 3;\n',
  'export function cube(side: number): number {\n  let volume = side;\n  volume **= 3;\n  return volume;\n}\n',
  'export const cube = (side: number): number => Math.pow(side, 3);\n',
  'export const power = Math.pow;\n',
  "export const cube = (side: number): number => Math['pow'](side, 3);\n",
  'const { pow } = Math;\nexport const cube = (side: number): number => pow(side, 3);\n',
].flatMap((code) => CORE_FOLDERS.map((folder) => ({ folder, code, says: 'Write a power as Math.exp' })));

const runTimeImports: BanCase[] = [
  "import { SCHEMA_VERSION } from '@commensal/schema';\nexport const version: string = SCHEMA_VERSION;\n",
  "import * as schema from '@commensal/schema';\nexport const version: string = schema.SCHEMA_VERSION;\n",
  "import { type SpeciesRecord } from '@commensal/schema';\nexport const idOf = (record: SpeciesRecord): string => record.id;\n",
  "import '@commensal/schema';\n",
  "export { SCHEMA_VERSION } from '@commensal/schema';\n",
  "export * from '@commensal/schema';\n",
  "export const schema = await import('@commensal/schema');\n",
].flatMap((code) => CORE_FOLDERS.map((folder) => ({ folder, code, says: 'core takes only types from @commensal/schema' })));

const importing = (folder: string, specifier: string, says: string): BanCase => ({
  folder,
  code: `import { something } from '${specifier}';\nexport const used = something;\n`,
  says,
});

const byPath = ['schema', 'species-sample', 'report', 'records', 'cli'].map((name) =>
  importing(`packages/${name}/src`, '../../core/src/index.js', 'Import another package by its name, not by its path'),
);

const packages: BanCase[] = [
  ...['@commensal/core', '@commensal/report', '@commensal/report/en', '@commensal/species-sample', 'commensal'].map((specifier) =>
    importing('packages/schema/src', specifier, 'schema imports nothing of ours'),
  ),
  ...['@commensal/core', '@commensal/report', '@commensal/report/en', 'commensal'].map((specifier) =>
    importing('packages/species-sample/src', specifier, 'species-sample imports only schema'),
  ),
  ...['@commensal/species-sample', 'commensal'].map((specifier) =>
    importing('packages/report/src', specifier, 'report imports only core and schema'),
  ),
  ...['@commensal/species-sample', 'commensal'].map((specifier) =>
    importing('packages/records/src', specifier, 'records imports only core, report and schema'),
  ),
  ...['schema', 'species-sample', 'report', 'records'].map((name) =>
    importing(`packages/${name}/src`, 'node:fs', `${name} imports nothing of Node`),
  ),
  ...CORE_FOLDERS.flatMap((folder) => [
    ...[
      'node:fs',
      'fs',
      'commander',
      '@humanwhocodes/momoa',
      '@commensal/report',
      '@commensal/species-sample',
      '@commensal/schema/validate/species',
    ].map((specifier) => importing(folder, specifier, 'core imports nothing but the types of @commensal/schema')),
    importing(folder, '../../../schema/src/index.js', 'Import another package by its name, not by its path'),
  ]),
  ...byPath,
];

/** Types count as well: what a floor knows of, it depends on. */
const floors: BanCase[] = FLOORS.flatMap((floor, level) =>
  FLOORS.slice(level + 1).flatMap((upper) => [
    importing(`packages/core/src/${floor}`, `../${upper}/index.js`, `${floor} imports `),
    importing(`packages/core/src/${floor}/deeper`, `../../${upper}/one/two.js`, `${floor} imports `),
    {
      folder: `packages/core/src/${floor}`,
      code: `import type { Something } from '../${upper}/index.js';\nexport type Used = Something;\n`,
      says: `${floor} imports `,
    },
    { folder: `packages/core/src/${floor}`, code: `export { something } from '../${upper}/index.js';\n`, says: `${floor} imports ` },
  ]),
);

const everywhere: BanCase[] = ['packages/core/src', 'packages/cli/src', 'scripts'].flatMap((folder) => [
  { folder, code: 'export default 1;\n', says: 'Avoid default exports' },
  { folder, code: 'export const value = (something: any): string => String(something);\n', says: 'Unexpected any' },
  { folder, code: "import { Thing } from './thing.js';\nexport type Used = Thing;\n", says: 'All these imports are only used as types' },
]);

export const banCases: readonly BanCase[] = [
  ...globals,
  ...randomness,
  ...powers,
  ...runTimeImports,
  ...packages,
  ...floors,
  ...everywhere,
];

/** What must pass: the look-alikes of what is banned. */
export const goodCases: readonly Omit<BanCase, 'says'>[] = [
  ...FLOORS.flatMap((floor, level) => [
    ...FLOORS.slice(0, level + 1).map((lower) => ({
      folder: `packages/core/src/${floor}`,
      code: `import { something } from '../${lower}/index.js';\nexport const used: number = something;\n`,
    })),
    {
      folder: `packages/core/src/${floor}`,
      code: "import type { SpeciesRecord } from '@commensal/schema';\nexport type { Plan } from '@commensal/schema';\nexport const idOf = (record: SpeciesRecord): string => record.id;\n",
    },
    {
      folder: `packages/core/src/${floor}`,
      code: "import { beside } from './beside.js';\nexport const power = (base: number): number => Math.exp(beside * Math.log(base));\n",
    },
  ]),
  {
    folder: 'packages/core/src',
    code: "export const titles = { document: 'Date', process: 1 };\nexport const lengthOf = (document: string, window: number): number => document.length + window;\n",
  },
  {
    folder: 'packages/schema/src',
    code: "import { distance } from 'fastest-levenshtein';\nexport const near: number = distance('a', 'b');\n",
  },
  {
    folder: 'packages/species-sample/src',
    code: "import type { SpeciesRecord } from '@commensal/schema';\nexport const idOf = (record: SpeciesRecord): string => record.id;\n",
  },
  {
    folder: 'packages/report/src',
    code: "import { check } from '@commensal/core';\nimport { SCHEMA_VERSION } from '@commensal/schema';\nexport const all: unknown[] = [check, SCHEMA_VERSION];\n",
  },
  {
    folder: 'packages/records/src',
    code: "import { check } from '@commensal/core';\nimport { cited } from '@commensal/report';\nimport { sentence } from '@commensal/report/en';\nimport { SCHEMA_VERSION } from '@commensal/schema';\nexport const all: unknown[] = [check, cited, sentence, SCHEMA_VERSION];\n",
  },
  {
    folder: 'packages/cli/src',
    code: "import { readFileSync } from 'node:fs';\nimport { check } from '@commensal/core';\nimport { sentence } from '@commensal/report/en';\nexport const all: unknown[] = [readFileSync, check, sentence, process.argv, new Date()];\n",
  },
];
