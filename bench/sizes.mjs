/** What a web page would load: bundles minified and gzipped. */
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { goalRow, heading, row } from './table.mjs';

const BUNDLES = [
  ['one rule, the smallest of them (care-tier)', `export { careTier } from '@commensal/core';`, 2],
  ['one rule, the largest of the pair rules (gape)', `export { gape } from '@commensal/core';`, 2],
  ['check and gape', `export { check, gape } from '@commensal/core';`],
  ['check, stockOf and gape', `export { check, gape, libraryOf, stockOf } from '@commensal/core';`],
  ['whole core, without catalogues', `export * from '@commensal/core';`, 16],
  ['validator of the species schema', `export { validate } from '@commensal/schema/validate/species';`, 8],
];

async function bundled(contents, root) {
  const { outputFiles } = await build({
    stdin: { contents, resolveDir: root },
    bundle: true,
    minify: true,
    write: false,
    format: 'esm',
    platform: 'browser',
    logLevel: 'error',
  });
  return outputFiles[0].text;
}

const kilobytes = (number) => `${number.toFixed(1)} kB`;

export async function benchSizes(root) {
  heading('Bundles, minified and gzipped');
  let evaluating = 0;
  for (const [what, contents, atMost] of BUNDLES) {
    const text = await bundled(contents, root);
    if (/\beval\(|new Function\(/.test(text)) evaluating += 1;
    const size = gzipSync(text, { level: 9 }).length / 1000;
    if (atMost === undefined) row(what, kilobytes(size));
    else goalRow(what, size, { atMost, show: kilobytes });
  }
  goalRow('bundles that evaluate text as code', evaluating, { atMost: 0, show: String });
}
