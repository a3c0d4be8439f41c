/** One file for the command line, with everything it needs inside: it starts fast and runs without an installation. */
import { chmodSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';
import { root } from './fingerprint.mjs';

const entry = path.join(root, 'packages/cli/dist/main.js');
const bundle = path.join(root, 'packages/cli/dist/commensal.js');

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

export async function buildCommandLine() {
  if (!existsSync(entry)) return;
  const result = await build({
    entryPoints: [entry],
    absWorkingDir: root,
    bundle: true,
    write: false,
    metafile: true,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    minify: false,
    legalComments: 'inline',
    logLevel: 'silent',
  });
  const code = result.outputFiles[0].text.replace(/^#!.*\n/, '');
  writeFileSync(bundle, [SHEBANG, ...(code.includes('__require(') ? [REQUIRE] : []), code].join('\n'));
  writeFileSync(path.join(path.dirname(bundle), 'THIRD-PARTY-LICENSES.txt'), `${noticesOf(result.metafile)}\n`);
  chmodSync(bundle, 0o755);
}
