/** Bad input and bad calls: code 2, nothing on standard output, nothing written, and words that help. */
import { existsSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { changed, commensal, example, file, folder, placesIn, REFUSED } from './command.js';

const quay = file(JSON.stringify(example()), 'quay.situation.json');

/** Runs a command that has to be refused, with a file to write to, and returns what it says. */
function refused(args: readonly string[], input?: string | Buffer): string {
  const { code, out, err } = commensal([...args, '--out', 'never'], input);
  expect({ code, out }).toEqual(REFUSED);
  expect(existsSync(path.join(folder, 'never'))).toBe(false);
  return err;
}

const check = (name: string): string => refused(['check', name]);

describe('calls', () => {
  test.each([
    ['an unknown command', ['pln', quay], "unknown command 'pln'\n(Did you mean plan?)"],
    ['an unknown option', ['plan', quay, '--speed'], "unknown option '--speed'"],
    ['a value that is not a choice', ['plan', quay, '--units', 'uk'], 'Allowed choices are metric, us'],
    ['a format that is not there', ['check', quay, '--format', 'xml'], 'Allowed choices are text, markdown, json'],
    ['rules as Markdown', ['rules', '--format', 'markdown'], "argument 'markdown' is invalid. Allowed choices are text, json"],
    [
      'a depth that is not there',
      ['plan', quay, '--depth', 'expert'],
      "argument 'expert' is invalid. Allowed choices are keeper, adviser, researcher",
    ],
    ['a depth of rules', ['rules', '--depth', 'adviser'], "unknown option '--depth'"],
    ['no file', ['plan'], "missing required argument 'situation'"],
    ['an empty name', ['plan', ''], 'It is empty'],
    ['two files', ['plan', quay, quay], "too many arguments for 'plan'"],
    ['an option without its value', ['plan', quay, '--as-of'], "option '--as-of <date>' argument missing"],
  ])('%s', (_, args, says) => {
    const { code, out, err } = commensal(args);
    expect({ code, out }).toEqual(REFUSED);
    expect(err).toContain(says);
    expect(err).toContain('Run commensal --help to see what there is.');
  });

  test('no command at all shows the help, as a mistake', () => {
    const { code, out, err } = commensal([]);
    expect({ code, out }).toEqual(REFUSED);
    expect(err).toMatch(/^Usage: commensal/);
  });

  test('an empty name to write to', () => {
    expect(commensal(['plan', quay, '--out', ''])).toMatchObject(REFUSED);
    expect(commensal(['plan', quay, '--species', ''])).toMatchObject(REFUSED);
  });

  test('an unknown rule offers the nearest', () => {
    expect(refused(['rules', 'gap'])).toMatch(
      /^unknown-rule\n {2}no rule has the id "gap"; it must be gape, appetite, rivalry, care-tier,.*, entry-gap or lockout\.\n {2}Did you mean gape\?\n$/,
    );
  });

  test.each(['2027-02-30', '2027-13-01', 'yesterday', '01.03.2027', '9999-12-31', '0207-03-01'])('--as-of %s', (date) => {
    const err = refused(['plan', quay, '--as-of', date]);
    expect(err).toMatch(/^(no-such-day|far-day)\n/);
    expect(err).toContain(`--as-of is "${date}"; `);
  });
});

describe('files', () => {
  test('that are not there', () => expect(check('absent.json')).toMatch(/^no-such-file\n {2}there is no file "absent\.json"; /));

  test('that are folders', () => expect(check('.')).toMatch(/^not-a-file\n {2}"\." is a folder; /));

  test.each(['', ' \n\t', '\uFEFF'])('that are empty (%j)', (text) => {
    const name = file(text);
    expect(check(name)).toBe(
      `${name}  empty-file\n  the file is empty; it must hold a document in JSON.\n  Fill it, or name another file.\n`,
    );
  });

  test('that are not text', () => {
    expect(check(file(Buffer.from([0xff, 0xfe, 0x7b, 0])))).toMatch(/^not-utf-8\n/);
  });

  test.each([
    ['a missing comma', '{\n  "a": 1\n  "b": 2\n}', '3:3', '“"b": 2” cannot stand here'],
    ['a comma too many', '{\n  "a": 1,\n}', '3:1', '“}” cannot stand here'],
    ['a bracket of the wrong kind', '{ "a": [1, 2} }', '1:13', '“} }” cannot stand here'],
    ['a missing end', '{ "a": 1', '1:9', 'the text ends'],
    ['a lone bracket', '{', '1:1', 'the text ends'],
    ['single quotes', "{ 'a': 1 }", '1:3', "“'a': 1 }” cannot stand here"],
    ['a comment', '// tank\n{}', '1:1', '“// tank” cannot stand here'],
    ['a word', '{ "a": yes }', '1:8', '“yes }” cannot stand here'],
    ['a line break within a text', '{ "a": "x\ny" }', '1:10', 'a text in quotes holds a line break'],
  ])('with %s are told by line and column', (_, text, at, says) => {
    const name = file(text);
    const err = check(name);
    expect(placesIn(err)).toEqual([`${name}:${at}  not-json`]);
    expect(err).toContain(says);
  });

  test('with line ends of the other kind are told by the same line', () => {
    const name = file('{\r\n  "a": 1\r\n  "b": 2\r\n}');
    expect(placesIn(check(name))).toEqual([`${name}:3:3  not-json`]);
  });

  test('with endless brackets', () => {
    expect(check(file('['.repeat(200_000)))).toContain('its brackets stand deeper in each other than any document needs');
  });

  test('with a name given twice are told of both lines', () => {
    const name = file('{\n  "date": "2027-03-01",\n  "tank": { "water": 1,\n    "water": 2 },\n  "date": "2027-03-02"\n}');
    const err = check(name);
    expect(placesIn(err)).toEqual([`${name}:4:5  duplicate-key`, `${name}:5:3  duplicate-key`]);
    expect(err).toContain('"water" is given twice, first in line 3; a name may stand once in an object.');
  });

  test('from standard input have its name', () => {
    expect(refused(['check', '-'], '[1 2]')).toMatch(/^<standard input>:1:4 {2}not-json\n/);
  });
});

describe('a byte order mark and other line ends are no mistake', () => {
  const text = JSON.stringify(example(), null, 2);
  const plain = commensal(['check', quay]);

  test.each([
    ['a byte order mark', `\uFEFF${text}`],
    ['CRLF', text.replaceAll('\n', '\r\n')],
    ['both', `\uFEFF${text.replaceAll('\n', '\r\n')}`],
  ])('%s', (_, other) => {
    expect(plain.code).toBe(0);
    expect(commensal(['check', file(other)])).toEqual(plain);
  });
});

describe('situations', () => {
  type Change = Parameters<typeof changed>[0];
  const saying = (change: Change): string => check(changed(change));

  test.each<[string, Change, string]>([
    [
      'negative water',
      ({ tank }) => Object.assign(tank.water, { value: -3 }),
      'tank.water.value is -3; it must be more than 0 and at most 1000000.',
    ],
    ['no water', ({ tank }) => Object.assign(tank.water, { value: 0 }), 'tank.water.value is 0; it must be more than 0'],
    [
      'an absurd length',
      ({ tank }) => Object.assign(tank, { length: { value: 1e9, unit: 'cm' } }),
      'tank.length.value is 1000000000; it must be more than 0 and at most 5000.',
    ],
    ['an endless number', ({ residents = [] }) => Object.assign(residents[0] ?? {}, { count: 1e300 }), 'it must be from 1 to 1000'],
    [
      'a number as text',
      ({ tank }) => Object.assign(tank.water, { value: '240' }),
      'tank.water.value is "240"; it must be a number without quotes.',
    ],
    [
      'a wrong unit',
      ({ tank }) => Object.assign(tank.water, { unit: 'gallons' }),
      'tank.water.unit is "gallons"; it must be L or [gal_us].',
    ],
    [
      'a word that is not in the list',
      ({ keeper }) => Object.assign(keeper ?? {}, { provisions: ['tight-lids'] }),
      'Did you mean "tight-lid"?',
    ],
    [
      'a tier that is not there',
      ({ keeper }) => Object.assign(keeper ?? {}, { careTier: 7 }),
      'keeper.careTier is 7; it must be from 1 to 3.',
    ],
    ['a misspelt property', ({ tank }) => Object.assign(tank, { lenght: tank.length }), 'tank has "lenght"; '],
    ['a day that is not in the calendar', (situation) => Object.assign(situation, { date: '2027-02-30' }), 'date is "2027-02-30"; '],
    ['a day as people write it', (situation) => Object.assign(situation, { date: '1 March 2027' }), 'it must be a day as yyyy-mm-dd'],
    [
      'a day long ago',
      ({ residents = [] }) => Object.assign(residents[0] ?? {}, { enteredOn: '0207-02-12' }),
      'the year must be from 1900 to 2999.',
    ],
    ['a day far ahead', (situation) => Object.assign(situation, { date: '9999-12-31' }), 'the year must be from 1900 to 2999.'],
    ['no tank', (situation) => Reflect.deleteProperty(situation, 'tank'), 'the document has no "tank"; "tank" must be given.'],
  ])('%s', (_, change, says) => expect(saying(change)).toContain(says));

  test('a misspelt property offers the right one', () => {
    expect(
      saying(({ tank }) => {
        Object.assign(tank, { lenght: tank.length });
        Reflect.deleteProperty(tank, 'length');
      }),
    ).toContain('Did you mean "length"?');
  });

  test('that are something else altogether', () => {
    expect(check(file('[]'))).toContain('it must be an object in braces');
    expect(check(file('"tank"'))).toContain('it must be an object in braces');
    expect(check(file('{}'))).toContain('"$schema" must be given');
  });

  test('every mistake is told, in the order of the file, of whatever sort', () => {
    const name = changed((situation) => {
      situation.tank.water.value = -1;
      Object.assign(situation.residents?.[0] ?? {}, { enteredOn: '0207-02-12' });
      Object.assign(situation.wishes?.[0] ?? {}, { species: 'clownfish' });
      Object.assign(situation.wishes?.[2] ?? {}, { priority: 99 });
    });
    const places = placesIn(check(name));
    expect(places.map((line) => line.split('  ')[1])).toEqual(['too-small', 'far-day', 'unknown-species', 'too-large']);
    const lines = places.map((line) => Number(/:(\d+):\d+ /.exec(line)?.[1]));
    expect(lines).toEqual([...lines].sort((one, other) => one - other));
    expect(new Set(lines).size).toBe(4);
  });

  test('the line is the one on which the value stands', () => {
    const text = JSON.stringify(example(), null, 2).replace('"naso-lituratus"', '"naso-literatus"');
    const name = file(text);
    const line = text.split('\n').findIndex((one) => one.includes('naso-literatus')) + 1;
    expect(placesIn(check(name))).toEqual([`${name}:${line}:18  unknown-species`]);
  });
});

describe('a species without a record', () => {
  const wishing = (species: string): string => {
    const err = refused(['plan', changed(({ wishes = [] }) => Object.assign(wishes[0] ?? {}, { species }))]);
    expect(err).toContain(`wishes[0].species is ${JSON.stringify(species)}; none of the `);
    return err;
  };

  test.each([
    ['amphiprion-ocelaris', 'Did you mean amphiprion-ocellaris (clown anemonefish)?'],
    ['Zebrasoma flavescens', 'Did you mean zebrasoma-flavescens (yellow tang)?'],
    ['yellow tang', 'Did you mean zebrasoma-flavescens (yellow tang)?'],
    ['Achilles Tang', 'Did you mean acanthurus-achilles (Achilles tang)?'],
    ['mandarinfish', 'Did you mean synchiropus-splendidus (mandarinfish)?'],
    ['pterois', 'Did you mean pterois-volitans (red lionfish)?'],
  ])('%s: %s', (species, says) => expect(wishing(species)).toContain(says));

  test('called by the name of several offers all of them', () => {
    const err = wishing('clownfish');
    for (const id of ['amphiprion-ocellaris', 'amphiprion-percula']) expect(err).toContain(id);
    expect(err).toMatch(/Did you mean .* or .*\?/);
  });

  test('that is like none is told how to write one', () => {
    expect(wishing('nemo')).toContain(
      'Write genus and species in small letters, joined by a hyphen, or name another folder of records with --species.',
    );
  });

  test('is told wherever it stands, once a place', () => {
    const name = changed((situation) => {
      Object.assign(situation.residents?.[0] ?? {}, { species: 'nobody-knows' });
      situation.introductions = [{ date: '2027-05-01', animals: [{ species: 'nobody-else' }] }];
    });
    const err = check(name);
    expect(placesIn(err)).toHaveLength(2);
    expect(err).toContain('residents[0].species is "nobody-knows"');
    expect(err).toContain('introductions[0].animals[0].species is "nobody-else"');
  });
});

describe('settings', () => {
  test('that name a rule or a threshold there is none of', () => {
    const name = changed((situation) => {
      situation.settings = {
        off: ['gap', 'weather'],
        thresholds: { gape: { longestshare: 1 }, rivalry: { odds: 1 }, rivalries: { bites: 1 } },
      };
    });
    const err = check(name);
    expect(placesIn(err).map((line) => line.split('  ')[1])).toEqual([
      'unknown-rule',
      'unknown-rule',
      'unknown-threshold',
      'unknown-threshold',
      'unknown-rule',
    ]);
    expect(err).toContain('settings name the rule "gap"; it must be gape, ');
    expect(err).toContain('Did you mean "gape"?');
    expect(err).toContain('settings name the rule "rivalries"; it must be gape, appetite, rivalry, ');
    expect(err).toContain('Did you mean "rivalry"?');
    expect(err).toContain('settings name the threshold "odds"; it must be ');
    expect(err).toContain('settings name the threshold "longestshare"; it must be squeeze, longestShare, ');
    expect(err).toContain('Use one of these, or leave it out.');
  });
});

test('wishes that leave more numbers to choose from than a plan weighs', () => {
  const name = changed(({ wishes = [] }) => {
    wishes.length = 0;
    for (let more = 0; more < 3; more += 1) wishes.push({ species: 'gramma-loreto', count: [1, 200] });
  });
  expect(refused(['plan', name])).toBe(
    'too-many-numbers\n  the wishes leave 600 numbers of animals to choose from; a plan weighs 512 at most.\n  Make the ranges of count narrower.\n',
  );
  expect(commensal(['check', name]).code).toBe(0);
});
