/** Compiles the catalogues: ICU MessageFormat in, plain functions out, so that nothing is parsed while the library runs. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import MessageFormat from '@messageformat/core';
import compileModule from '@messageformat/core/compile-module.js';
import { build } from 'esbuild';

const report = path.join(path.dirname(fileURLToPath(import.meta.url)), '../packages/report');
const generated = path.join(report, 'src/generated');

const DECLARATION = `/** Sentences by key; each takes its slots and returns the text. */
export declare const messages: Readonly<Record<string, (slots: Readonly<Record<string, string | number>>) => string>>;
`;

export async function buildMessages() {
  mkdirSync(generated, { recursive: true });
  const folder = path.join(report, 'messages');
  const files = readdirSync(folder).filter((name) => name.endsWith('.json'));
  if (files.length === 0) throw new Error('no catalogues found in packages/report/messages');
  for (const file of files) {
    const language = path.basename(file, '.json');
    const messages = JSON.parse(readFileSync(path.join(folder, file), 'utf8'));
    const source = String(compileModule(new MessageFormat(language), messages)).replace('export default', 'export const messages =');
    const result = await build({
      stdin: { contents: source, resolveDir: report, loader: 'js' },
      bundle: true,
      write: false,
      format: 'esm',
      platform: 'neutral',
      mainFields: ['module', 'main'],
      target: 'es2022',
    });
    writeFileSync(path.join(generated, `${language}.js`), result.outputFiles[0].text);
    writeFileSync(path.join(generated, `${language}.d.ts`), DECLARATION);
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildMessages();
