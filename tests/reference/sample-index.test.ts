/** What the package of species offers to those who do not want all of it: an index, and modules of one species each. */
import { mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { records } from '@commensal/species-sample';
import { build } from 'esbuild';
import { afterAll, describe, expect, it } from 'vitest';
import { filesUnder, root, textOf } from '../support/repository.js';

interface Entry {
  readonly id: string;
  readonly scientificName: string;
  readonly family: string;
  readonly name?: string;
  readonly release: string;
  readonly file: string;
}

const resolve = createRequire(import.meta.url).resolve;
const index = JSON.parse(textOf(path.relative(root, resolve('@commensal/species-sample/index.json')))) as Entry[];

describe('the index', () => {
  it('has one entry a record, in the order of their ids', () => {
    expect(index.length).toBeGreaterThan(0);
    expect(index.map(({ id }) => id)).toEqual(records.map(({ id }) => id).sort());
  });

  it('tells what the records tell', () => {
    const told = records.map(({ id, taxon, vernacularNames, addedIn }) => ({
      id,
      scientificName: taxon.scientificName,
      family: taxon.family,
      name: vernacularNames.find(({ language }) => language === 'en')?.name,
      release: addedIn,
      file: `records/${taxon.family.toLowerCase()}/${id}.species.json`,
    }));
    expect(index).toEqual(told.sort((one, other) => (one.id < other.id ? -1 : 1)));
  });

  it('every species has an English name, and no two share one', () => {
    const names = index.map(({ name }) => name);
    expect(names).not.toContain(undefined);
    expect(new Set(names).size).toBe(names.length);
  });

  it('names files that the package holds, and that can be imported by that name', () => {
    const held = new Set(filesUnder('packages/species-sample/records'));
    for (const { file } of index) {
      expect(held).toContain(`packages/species-sample/${file}`);
      expect(resolve(`@commensal/species-sample/${file}`)).toBe(path.join(root, 'packages/species-sample', file));
    }
  });
});

describe('the cost of one species', () => {
  const work = mkdtempSync(path.join(tmpdir(), 'commensal-one-species-'));
  afterAll(() => rmSync(work, { recursive: true, force: true }));

  /** What a bundler makes of a module that uses what it imports: how many bytes, and which files it took. */
  async function bundled(contents: string): Promise<{ bytes: number; inputs: string[]; text: string }> {
    const { outputFiles, metafile } = await build({
      stdin: { contents, resolveDir: root },
      outdir: work,
      bundle: true,
      format: 'esm',
      minify: true,
      write: false,
      metafile: true,
    });
    const [output] = outputFiles;
    if (output === undefined) throw new Error('nothing was bundled');
    return { bytes: output.contents.length, inputs: Object.keys(metafile.inputs).filter((file) => file !== '<stdin>'), text: output.text };
  }

  const one = (id: string): string => `import { record } from '@commensal/species-sample/species/${id}'; console.log(record);`;

  it('is its own module and nothing else', async () => {
    const { inputs, text } = await bundled(one('gramma-loreto'));
    expect(inputs).toEqual(['packages/species-sample/dist/species/gramma-loreto.js']);
    expect(text).toContain('Gramma loreto');
    expect(text).not.toContain('Amphiprion ocellaris');
  });

  it('is about its share of the whole', async () => {
    const whole = await bundled("import { records } from '@commensal/species-sample'; console.log(records);");
    const two = await bundled(
      `import { record } from '@commensal/species-sample/species/gramma-loreto';
       import { record as other } from '@commensal/species-sample/species/amphiprion-ocellaris';
       console.log(record, other);`,
    );
    const single = await bundled(one('gramma-loreto'));
    expect(whole.text).toContain('Amphiprion ocellaris');
    // Records differ in length, so that one may be twice the mean; a module that drew in the whole would be as many times it as there are species.
    expect(single.bytes).toBeLessThan((2 * whole.bytes) / records.length);
    expect(two.bytes).toBeLessThan((4 * whole.bytes) / records.length);
    expect(two.bytes).toBeGreaterThan(single.bytes);
  });
});
