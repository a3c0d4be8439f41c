/**
 * The command line with everything it needs inside: it starts fast and runs without an installation. What only some commands need stands in files of
 * its own beside it.
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

export async function buildCommandLine() {
  if (!existsSync(entry)) return;
  const result = await build({
    entryPoints: { commensal: entry },
    outdir: dist,
    splitting: true,
    chunkNames: 'parts/[name]-[hash]',
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
  rmSync(parts, { recursive: true, force: true });
  mkdirSync(parts, { recursive: true });
  for (const { path: file, text } of result.outputFiles) {
    const code = text.replace(/^#!.*\n/, '');
    writeFileSync(file, [...(file === bundle ? [SHEBANG] : []), ...(code.includes('typeof require') ? [REQUIRE] : []), code].join('\n'));
  }
  writeFileSync(path.join(dist, 'THIRD-PARTY-LICENSES.txt'), `${noticesOf(result.metafile)}\n`);
  chmodSync(bundle, 0o755);
}
