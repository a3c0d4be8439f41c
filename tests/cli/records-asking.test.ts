/** `commensal records new` at a terminal asks for what it cannot infer. `script` of util-linux gives a terminal; without it there is nothing to test with. */
import { spawnSync } from 'node:child_process';
import { speciesProblems } from '@commensal/schema';
import { expect, test } from 'vitest';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { bundle, folder, recordsIn } from './command.js';

const hasTerminal = spawnSync('script', ['--version'], { encoding: 'utf8' }).stdout?.includes('util-linux') === true;
const small = recordsIn('few-to-ask', ['grammatidae/gramma-loreto']);

/** Runs at a terminal with lines typed into it; what the terminal shows, and the code. */
function typed(args: string, lines: readonly string[]): { readonly code: number | null; readonly shown: string } {
  const command = `"${process.execPath}" "${bundle}" records new ${args} --species ${small}`;
  const { status, stdout } = spawnSync('script', ['-qec', command, '/dev/null'], {
    cwd: folder,
    input: lines.map((line) => `${line}\n`).join(''),
    encoding: 'utf8',
    env: { ...process.env, NO_COLOR: '1' },
  });
  return { code: status, shown: stdout };
}

test.skipIf(!hasTerminal && process.env.CI === undefined)(
  'family, form, name, length and its type are asked for; Enter leaves out what can be left out',
  () => {
    const { code, shown } = typed("'Novum primum' --out asked", ['Novidae', 'fish', 'new fish', '12cm', '']);
    expect(code).toBe(0);
    for (const question of ['Family of Novum', 'Form (fish,', 'English name', 'Greatest length', 'Length type'])
      expect(shown).toContain(question);
    const record = JSON.parse(readFileSync(path.join(folder, 'asked/novidae/novum-primum.species.json'), 'utf8'));
    expect(speciesProblems(record)).toEqual([]);
    expect(record).toMatchObject({ form: 'fish', size: { maximum: { value: 12, lengthType: 'TL' } } });
  },
);

test.skipIf(!hasTerminal && process.env.CI === undefined)('what is known or told by a flag is not asked', () => {
  const { code, shown } = typed("'Gramma melacara' --english 'blackcap basslet' --out known", ['']);
  expect(code).toBe(0);
  expect(shown).not.toContain('Family of');
  expect(shown).not.toContain('English name');
});

test.skipIf(!hasTerminal && process.env.CI === undefined)(
  '--no-input asks nothing and says what is missing; so does an end of what is typed',
  () => {
    const silent = typed("'Novum alterum' --no-input --out never", []);
    expect(silent.code).toBe(2);
    expect(silent.shown).not.toContain('Family of');
    expect(silent.shown).toContain('--family');
    const ended = typed("'Novum alterum' --out never", ['Novidae', '\u0004']);
    expect(ended.code).toBe(2);
    expect(ended.shown).toContain('--form');
    expect(existsSync(path.join(folder, 'never'))).toBe(false);
  },
);
