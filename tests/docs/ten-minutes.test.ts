/** The guide for a first record, followed to the letter: its commands are run, its JSON is added to the record, and what it shows is what is printed. */
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { fencesIn } from '../../scripts/docs.mjs';
import { type Json, mergePatch, type Patch } from '../cases/merge-patch.js';
import { commensal, folder } from '../cli/command.js';
import { textOf } from '../support/repository.js';

const RECORD = 'my-records/pomacentridae/chrysiptera-hemicyanea.species.json';
const lines = textOf('docs/a-record-in-ten-minutes.md').split('\n');
const steps = fencesIn(lines).map(({ info, from, to }) => ({ info, text: lines.slice(from, to).join('\n'), line: from }));

/** Words of a command line; quotes hold some together. */
const wordsOf = (command: string): string[] => [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');

/** A text is printed with line breaks of its own. */
const unwrapped = (text: string): string => text.replaceAll('\\', '/').replaceAll(/\s+/g, ' ');

test('a record in ten minutes', () => {
  const place = path.join(folder, RECORD);
  let printed = '';
  let last: number | null = null;
  let compared = 0;
  for (const { info, text, line } of steps) {
    if (info === 'json') {
      const record: Json = JSON.parse(readFileSync(place, 'utf8'));
      const patch: Patch = JSON.parse(text);
      // As an editor leaves it; where names stand is what the guide lets the command see to.
      writeFileSync(place, `${JSON.stringify(mergePatch(record, patch), null, 2)}\n`);
    } else if (info === 'sh') {
      printed = '';
      for (const command of text.split('\n')) {
        const [name, ...args] = wordsOf(command);
        expect(name, `line ${line}`).toBe('commensal');
        const { code, out, err } = commensal(args);
        expect(code, err).toBeLessThan(2);
        last = code;
        printed += out;
      }
    } else {
      expect(info).toBe('text');
      for (const shown of text.split('\n')) {
        expect(unwrapped(printed), `line ${line}`).toContain(unwrapped(shown.trim()));
        compared += 1;
      }
    }
  }
  expect(compared).toBeGreaterThan(8);
  expect(last).toBe(0);
});
