/** Settings of a document, as the command line obeys them: thresholds, rules off, acceptances, doubts, and what they misspell. */
import type { CheckReport, Finding, Plan, Situation } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { commensal, example, file, placesIn, REFUSED } from './command.js';

type Settings = NonNullable<Situation['settings']>;

/** A grouper in reach of a basslet, and two wishes. */
const situationOf = (settings: Settings, more: Partial<Situation> = {}): string => {
  const { wishes: _, ...bare } = example();
  const residents = [
    { id: 'hind', name: 'Marlow', species: 'cephalopholis-miniata', length: { value: 20, unit: 'cm' as const } },
    { id: 'basslet', name: 'Tansy', species: 'gramma-loreto', length: { value: 4, unit: 'cm' as const } },
  ];
  return file(JSON.stringify({ ...bare, residents, settings, ...more }, null, 2));
};

const ran = <Result>(command: string, name: string, ...options: string[]): { code: number | null; result: Result } => {
  const { code, out, err } = commensal([command, name, '--format', 'json', ...options]);
  expect(err).toBe('');
  return { code, result: JSON.parse(out) };
};
const checked = (name: string, ...options: string[]) => ran<CheckReport>('check', name, ...options);
const planned = (name: string, ...options: string[]) => ran<Plan>('plan', name, ...options);
const of = ({ findings }: { findings: readonly Finding[] }, rule: string): Finding[] => findings.filter((finding) => finding.rule === rule);
const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ');

const { rules } = JSON.parse(commensal(['rules', '--format', 'json']).out) as {
  rules: { id: string; defaults: Record<string, { value: number }> }[];
};
const allBut = (...kept: string[]): string[] => rules.map(({ id }) => id).filter((id) => !kept.includes(id));
const KEY = 'gape:predator=hind,prey=basslet';

describe('rules off', () => {
  test.each(rules.map(({ id }) => id))('%s can be, one and all others', (id) => {
    const { result: without } = checked(situationOf({ off: [id] }));
    expect(of(without, id)).toEqual([]);
    expect(without.summary.rules[id]).toEqual({ passed: 0, failed: 0, cantTell: 0, inapplicable: 0, untested: 1 });
    const { result: alone } = checked(situationOf({ off: allBut(id) }));
    expect(alone.findings.every(({ rule }) => rule === id)).toBe(true);
    const untested = Object.entries(alone.summary.rules).filter(([, counts]) => counts.untested === 1);
    expect(untested.map(([other]) => other)).toEqual(allBut(id));
  });

  test('all of them: nothing fails, and all is said to be untested', () => {
    const { code, result } = checked(situationOf({ off: allBut() }));
    expect([code, result.findings]).toEqual([0, []]);
    expect(Object.values(result.summary.rules).every(({ untested }) => untested === 1)).toBe(true);
  });

  test('let a wish in that one of them keeps out', () => {
    const wishing = (settings: Settings): string[] =>
      planned(situationOf(settings, { residents: [], wishes: [{ species: 'naso-lituratus' }] })).result.chosen.map(
        ({ species }) => species,
      );
    expect(wishing({ off: allBut('swimming-room') })).toEqual([]);
    expect(wishing({ off: allBut() })).toEqual(['naso-lituratus']);
  });
});

describe('thresholds', () => {
  test('every one can be set to what it is, and nothing changes', () => {
    const thresholds = Object.fromEntries(
      rules.map(({ id, defaults }) => [id, Object.fromEntries(Object.entries(defaults).map(([name, { value }]) => [name, value]))]),
    );
    const { findings, summary } = checked(situationOf({})).result;
    expect(checked(situationOf({ thresholds })).result).toMatchObject({ findings, summary });
  });

  test('one changes what check finds', () => {
    const apart = (settings: Settings): Finding[] =>
      of(
        checked(
          situationOf(settings, {
            introductions: ['2027-03-10', '2027-03-25'].map((date) => ({
              date,
              animals: [{ id: `on-${date}`, species: 'gramma-loreto' }],
            })),
          }),
        ).result,
        'entry-gap',
      ).filter(({ message }) => message === 'entry-gap.tooClose');
    expect(apart({}).length).toBeGreaterThan(0);
    expect(apart({ thresholds: { 'entry-gap': { gapDays: 10 } } })).toEqual([]);
  });

  test('one changes the days of a plan', () => {
    const days = (settings: Settings): number => {
      const wishes = [{ species: 'gramma-loreto' }, { species: 'amphiprion-ocellaris' }];
      const { introductions } = planned(situationOf({ off: allBut('entry-gap'), ...settings }, { residents: [], wishes })).result;
      const [first, second] = introductions.map(({ date }) => Date.parse(date) / 86_400_000);
      return (second ?? 0) - (first ?? 0);
    };
    expect(days({})).toBe(28);
    expect(days({ thresholds: { 'entry-gap': { gapDays: 40 } } })).toBe(40);
  });
});

describe('what is accepted', () => {
  const accepting = (...accepted: NonNullable<Settings['accepted']>): Settings => ({ off: allBut('gape'), accepted });

  test('does not count as failed, and keeps its reason, in check and in plan', () => {
    const name = situationOf(accepting({ key: KEY, reason: 'They have lived together for years.' }));
    const { code, result } = checked(name);
    expect([code, result.summary.failed.error, result.summary.accepted]).toEqual([0, 0, 1]);
    expect(result.findings.find(({ key }) => key === KEY)).toMatchObject({
      outcome: 'failed',
      accepted: 'They have lived together for years.',
    });
    const plan = planned(name).result;
    expect(plan.summary).toEqual(result.summary);
    for (const command of ['check', 'plan']) {
      expect(oneLine(commensal([command, name]).out)).toContain('(Accepted: They have lived together for years.)');
    }
  });

  test('lets a wish in that it is about', () => {
    const key = 'gape:predator=hind,prey=gramma-loreto';
    const chosen = (...accepted: NonNullable<Settings['accepted']>): unknown =>
      planned(situationOf(accepting(...accepted), { wishes: [{ species: 'gramma-loreto' }] })).result.chosen;
    expect(chosen()).toEqual([]);
    expect(chosen({ key, reason: 'There is a sheet of glass between them.' })).toEqual([{ species: 'gramma-loreto', count: 1 }]);
  });

  test.each(['check', 'plan'])('%s tells what no longer applies, and what has come to its day', (command) => {
    const gone = 'gape:predator=basslet,prey=hind';
    const name = situationOf(accepting({ key: gone, reason: 'It may yet.' }, { key: KEY, reason: 'For now.', until: '2027-03-01' }));
    const { result } = ran<CheckReport | Plan>(command, name);
    expect(result.staleAcceptances).toEqual([
      { key: gone, why: 'not-found' },
      { key: KEY, why: 'past-its-day' },
    ]);
    const text = oneLine(commensal([command, name]).out);
    expect(text).toContain(`An accepted finding no longer applies; take it out of the settings: ${gone}`);
    expect(text).toContain(`An acceptance has reached its day; look at the finding again: ${KEY}`);
  });

  test('holds to the day before its day, whatever day the tank is looked at', () => {
    const name = situationOf(accepting({ key: KEY, reason: 'For now.', until: '2027-06-01' }));
    expect(checked(name, '--as-of', '2027-05-31').code).toBe(0);
    expect(checked(name, '--as-of', '2027-06-01').code).toBe(1);
  });

  test('of a rule that is off is no longer found', () => {
    const { result } = checked(situationOf({ off: allBut(), accepted: [{ key: KEY, reason: 'x' }] }));
    expect(result.staleAcceptances).toEqual([{ key: KEY, why: 'not-found' }]);
  });
});

describe('doubts', () => {
  /** How long the hind is, and so what it can swallow, is not known. */
  const unmeasured: Partial<Situation> = {
    residents: [{ id: 'hind', species: 'cephalopholis-miniata' }],
    wishes: [{ species: 'gramma-loreto' }],
  };
  const under = (whenUncertain: Settings['whenUncertain'] & string, ...options: string[]): { code: number | null; result: Plan } =>
    planned(situationOf({ off: allBut('gape'), whenUncertain }, unmeasured), ...options);

  test.each(['avoid', 'allow'] as const)('%s: a wish with no other way comes in, and --strict says 1', (whenUncertain) => {
    const { code, result } = under(whenUncertain);
    expect([code, result.chosen]).toEqual([0, [{ species: 'gramma-loreto', count: 1 }]]);
    expect(result.summary.cantTell.error).toBeGreaterThan(0);
    expect(under(whenUncertain, '--strict').code).toBe(1);
  });

  test('exclude: it is left out, for that reason', () => {
    const { code, result } = under('exclude');
    expect([code, result.chosen]).toEqual([1, []]);
    expect(result.leftOut[0]?.because).toMatchObject([{ rule: 'gape', outcome: 'cantTell', level: 'error' }]);
  });

  test('an accepted one is none, for --strict as well', () => {
    const key = 'gape:predator=hind,prey=gramma-loreto';
    const name = situationOf({ off: allBut('gape'), whenUncertain: 'exclude', accepted: [{ key, reason: 'It is fed.' }] }, unmeasured);
    const { code, result } = planned(name, '--strict');
    expect([code, result.chosen.length, result.summary.accepted]).toEqual([0, 1, 1]);
  });
});

describe('names that are not there', () => {
  const refused = (settings: unknown, ...args: string[]): string => {
    const { code, out, err } = commensal(['check', situationOf(settings as Settings), ...args]);
    expect({ code, out }).toEqual(REFUSED);
    return oneLine(err);
  };

  test.each([
    ['of a rule', { off: ['watre'] }, 'unknown-rule settings name the rule "watre"; it must be gape, ', 'Did you mean "water"?'],
    ['like none', { off: ['zzz'] }, 'settings name the rule "zzz"; it must be gape, ', 'Use one of these, or leave it out.'],
    [
      'of a rule with thresholds',
      { thresholds: { 'entry-gaps': { gapDays: 3 } } },
      'settings name the rule "entry-gaps"; it must be gape, ',
      'Did you mean "entry-gap"?',
    ],
    [
      'of a threshold',
      { thresholds: { gape: { squeze: 1 } } },
      'unknown-threshold settings name the threshold "squeze"; it must be squeeze, ',
      'Did you mean "squeeze"?',
    ],
    [
      'of somebody else’s rule',
      { off: ['lanternclub/house-list'] },
      'settings name the rule "lanternclub/house-list"; it must be gape, ',
      'Leave it out, or use a program that has the rules of "lanternclub".',
    ],
    [
      'of doubts',
      { whenUncertain: 'avoided' },
      'settings.whenUncertain is "avoided"; it must be avoid, allow or exclude.',
      'Did you mean "avoid"?',
    ],
    ['of a setting', { treshold: {} }, 'settings has "treshold"; ', 'thresholds'],
  ])('%s', (_, settings, says, fix) => {
    const err = refused(settings);
    expect(err).toContain(says);
    expect(err).toContain(fix);
  });

  test('stand at their place in the file, also where the name has a slash', () => {
    const { settings: _, ...bare } = example();
    const text = JSON.stringify(
      { ...bare, settings: { off: ['gape', 'watre'], thresholds: { 'lanternclub/list': { most: 1 } } } },
      null,
      2,
    );
    const name = file(text);
    const lineOf = (word: string): number => text.split('\n').findIndex((line) => line.includes(word)) + 1;
    const places = placesIn(commensal(['check', name]).err).map((place) => place.replace(/:\d+ {2}/, ' '));
    expect(places).toEqual([`${name}:${lineOf('"watre"')} unknown-rule`, `${name}:${lineOf('"lanternclub/list"')} unknown-rule`]);
  });

  test('an acceptance without a reason, and a day that is none', () => {
    expect(refused({ accepted: [{ key: KEY }] })).toContain('"reason" must be given');
    expect(refused({ accepted: [{ key: KEY, reason: 'x', until: '2027-02-30' }] })).toContain('settings.accepted[0].until is "2027-02-30"');
  });
});
