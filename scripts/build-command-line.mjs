/**
 * The command line with everything it needs inside, so that it runs without an installation: one file to call, and beside it a folder of parts
 * that are loaded when they are asked for, so that it starts fast.
 */
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';
import { root } from './fingerprint.mjs';

const entry = path.join(root, 'packages/cli/dist/main.js');
const dist = path.join(root, 'packages/cli/dist');
const bundle = path.join(dist, 'commensal.js');
const parts = path.join(dist, 'parts');

const SHEBANG = '#!/usr/bin/env node';
// A CommonJS dependency asks for Node's own modules through `require`, which an ES module does not have.
const REQUIRE = "import { createRequire as requireFrom } from 'node:module';\nconst require = requireFrom(import.meta.url);";

/** `node_modules/@scope/name` for every package of others that went into the bundle. */
const packagesIn = (metafile) => [
  ...new Set(Object.keys(metafile.inputs).flatMap((file) => file.match(/^.*node_modules\/(@[^/]+\/)?[^/]+(?=\/)/)?.[0] ?? [])),
];

/** The licence text that a package carries, or the common text of the licence that it names. */
function licenceOf(folder, { name, license, author }) {
  const carried = readdirSync(path.join(root, folder)).filter((file) => /^(licen[cs]e|notice)/i.test(file));
  if (carried.length > 0) return carried.map((file) => readFileSync(path.join(root, folder, file), 'utf8').trim());
  const common = path.join(root, 'scripts/licences', `${license}.txt`);
  if (!existsSync(common)) throw new Error(`${name} carries no licence text, and scripts/licences has none for ${license}`);
  return [`Copyright ${author.name ?? author}`, readFileSync(common, 'utf8').trim()];
}

/** Licences ask to travel with the code, and the bundle carries the code without its folders. */
const noticesOf = (metafile) =>
  packagesIn(metafile)
    .sort()
    .map((folder) => {
      const manifest = JSON.parse(readFileSync(path.join(root, folder, 'package.json'), 'utf8'));
      return [`${manifest.name} ${manifest.version} (${manifest.license})`, ...licenceOf(folder, manifest)].join('\n\n');
    })
    .join(`\n\n${'-'.repeat(80)}\n\n`);

const NAMED_EXPORT = /^export \{([^}]*)\} from '(\.[^']+)';$/gm;
const NAMED_IMPORT = /^import \{([^}]*)\} from '@commensal\/([\w-]+)';$/gm;
const namesIn = (list) =>
  list
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '');

/** The module that each name of a package comes from. */
function modulesOf(name) {
  const folder = path.join(root, 'packages', name, 'dist');
  const index = readFileSync(path.join(folder, 'index.js'), 'utf8');
  return new Map(
    [...index.matchAll(NAMED_EXPORT)].flatMap(([, list, file]) => namesIn(list).map((exported) => [exported, path.join(folder, file)])),
  );
}

/**
 * Names of our packages are imported from the modules they come from. Through the index of its package, a part would depend on every
 * module that the index names, and all parts would load everything.
 */
const pastTheIndex = {
  name: 'past-the-index',
  setup({ onLoad }) {
    const known = new Map();
    const moduleOf = (name, exported) => {
      if (!known.has(name)) known.set(name, modulesOf(name));
      return known.get(name).get(exported);
    };
    onLoad({ filter: /packages[\\/][\w-]+[\\/]dist[\\/].*\.js$/ }, ({ path: file }) => ({
      contents: readFileSync(file, 'utf8').replaceAll(NAMED_IMPORT, (statement, list, name) => {
        const from = namesIn(list).map((imported) => [imported, moduleOf(name, imported.split(' as ')[0])]);
        if (from.some(([, module]) => module === undefined)) return statement;
        return from.map(([imported, module]) => `import { ${imported} } from ${JSON.stringify(module)};`).join(' ');
      }),
    }));
  },
};

/** What a file needs that asks for Node's own modules. */
const withRequire = (code) => (code.includes('__require = ') ? `${REQUIRE}\n${code}` : code);

export async function buildCommandLine() {
  if (!existsSync(entry)) return;
  const result = await build({
    entryPoints: { commensal: entry },
    absWorkingDir: root,
    outdir: dist,
    chunkNames: 'parts/[name]-[hash]',
    bundle: true,
    plugins: [pastTheIndex],
    splitting: true,
    write: false,
    metafile: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    minify: false,
    legalComments: 'inline',
    logLevel: 'silent',
  });
  rmSync(parts, { recursive: true, force: true });
  mkdirSync(parts);
  for (const file of result.outputFiles) {
    const code = withRequire(file.text.replace(/^#!.*\n/, ''));
    writeFileSync(file.path, file.path === bundle ? `${SHEBANG}\n${code}` : code);
  }
  writeFileSync(path.join(dist, 'THIRD-PARTY-LICENSES.txt'), `${noticesOf(result.metafile)}\n`);
  chmodSync(bundle, 0o755);
}
