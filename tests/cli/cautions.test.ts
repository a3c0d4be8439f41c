/** Cautions come with every command that names a species, wherever the situation names it, in every language. */
import type { Caution, Situation } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { commensal, example, file } from './command.js';

/** Every command that takes a situation, as the help lists them. */
const commands = [...commensal(['--help']).out.matchAll(/^ {2}(\w+) .*<situation>/gm)].map(([, name = '']) => name);

const situationOf = (more: Partial<Situation>): string => {
  const { residents: _, introductions: __, wishes: ___, ...bare } = example();
  return file(JSON.stringify({ ...bare, ...more }));
};

const LION = 'pterois-volitans';
const NAMED: Readonly<Record<string, Partial<Situation>>> = {
  resident: { residents: [{ id: 'lion', species: LION, length: { value: 12, unit: 'cm' } }] },
  newcomer: { introductions: [{ date: '2027-04-01', animals: [{ id: 'lion', species: LION, length: { value: 12, unit: 'cm' } }] }] },
  'wish, granted or not': { wishes: [{ species: LION }] },
};

const run = (command: string, name: string, ...options: string[]): string => {
  const { code, out, err } = commensal([command, name, ...options]);
  expect([0, 1], err).toContain(code);
  return out;
};
const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ');
const unspaced = (text: string): string => text.replaceAll(/\s+/g, '');
const cautionsOf = (command: string, name: string): Caution[] =>
  (JSON.parse(run(command, name, '--format', 'json')) as { cautions: Caution[] }).cautions;

test('there are commands that take a situation', () => {
  expect(commands).toContain('check');
  expect(commands).toContain('plan');
});

describe.each(commands)('%s', (command) => {
  test.each(Object.keys(NAMED))('warns of a venomous %s', (as) => {
    const name = situationOf(NAMED[as] ?? {});
    const cautions = cautionsOf(command, name);
    expect(cautions[0]).toEqual({
      kind: 'venom',
      severity: 'dangerous',
      species: [LION],
      message: 'caution.venom.dangerous',
      sources: ['atkinson-2006'],
    });
    expect(cautions.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['electricity', 'never-release']));
    for (const language of [[], ['--lang', 'en']]) {
      const text = oneLine(run(command, name, ...language));
      expect(text).toContain('Red lionfish: venomous spines.');
      expect(text).toContain('First aid after Atkinson and others (2006)');
      expect(text).toContain('Seek medical advice in any case');
      expect(text).toContain('residual-current device');
      expect(text).toContain('Never set an aquarium animal free');
    }
    const german = oneLine(run(command, name, '--lang', 'de'));
    for (const words of [
      'Giftstacheln.',
      'Erste Hilfe nach Atkinson',
      'ärztlichen Rat einholen',
      'Fehlerstrom-Schutzschalter',
      'Nie ein Aquarientier aussetzen',
    ])
      expect(german).toContain(words);
    const japanese = unspaced(run(command, name, '--lang', 'ja'));
    for (const words of ['とげに毒があります。', '応急手当（Atkinsonほか、2006年）', '医師の診察を受け', '漏電遮断器', '決して放さないで'])
      expect(japanese).toContain(words);
  });

  test('has the water on a sting in the units of the reader', () => {
    const name = situationOf(NAMED.resident ?? {});
    expect(oneLine(run(command, name))).toContain('(not above 45°C,');
    expect(oneLine(run(command, name, '--units', 'us'))).toContain('(not above 113°F,');
  });

  test('warns of what the law protects', () => {
    const name = situationOf({ wishes: [{ species: 'hippocampus-kuda' }] });
    const listed = cautionsOf(command, name).find(({ kind }) => kind === 'protected');
    expect(listed).toEqual({
      kind: 'protected',
      severity: 'duty',
      species: ['hippocampus-kuda'],
      message: 'caution.protected',
      sources: ['froese-pauly-2018'],
    });
    expect(oneLine(run(command, name))).toContain('check the current CITES list and the rules where you live');
  });

  test('leaves illness to a veterinarian where what is found speaks of copper', () => {
    const tank: Situation['tank'] = { ...example().tank, copper: 'present' };
    const name = situationOf({ tank, residents: [{ id: 'shrimp', species: 'lysmata-amboinensis', count: 2 }] });
    expect(cautionsOf(command, name).find(({ kind }) => kind === 'medication')?.species).toEqual(['lysmata-amboinensis']);
    expect(oneLine(run(command, name))).toContain('leave illness and its treatment to a veterinarian');
    expect(oneLine(run(command, name, '--lang', 'de'))).toContain('einem Tierarzt oder einer Tierärztin überlassen');
    expect(unspaced(run(command, name, '--lang', 'ja'))).toContain('獣医師に任せてください');
  });

  test('warns of what may live among soft corals, even where no animal is named', () => {
    const name = situationOf({ tank: { ...example().tank, kept: ['soft-corals'] } });
    expect(cautionsOf(command, name).map(({ message }) => message)).toEqual(['caution.palytoxin']);
    expect(oneLine(run(command, name))).toContain('can hold palytoxin');
  });

  test('has no cautions where there is nothing to be careful of', () => expect(cautionsOf(command, situationOf({}))).toEqual([]));
});

test('a wish left out because of copper brings the caution to plan', () => {
  const tank: Situation['tank'] = { ...example().tank, copper: 'present' };
  const name = situationOf({ tank, wishes: [{ species: 'lysmata-amboinensis', count: [2, 2] }] });
  const { leftOut, findings, cautions } = JSON.parse(run('plan', name, '--format', 'json'));
  expect(leftOut).toHaveLength(1);
  expect(findings).toEqual([]);
  expect((cautions as Caution[]).find(({ kind }) => kind === 'medication')?.species).toEqual(['lysmata-amboinensis']);
});
