/** Exit codes, acceptances, days, and one changed number that changes what comes out. */
import type { CheckReport, Finding, Plan, Situation } from '@commensal/schema';
import { describe, expect, test } from 'vitest';
import { changed, commensal, example, file } from './command.js';

const situationOf = (more: Partial<Situation>): Situation => {
  const { residents: _, wishes: __, ...bare } = example();
  return { ...bare, ...more };
};
const write = (more: Partial<Situation>): string => file(JSON.stringify(situationOf(more), null, 2));

const checked = (name: string, ...options: string[]): { code: number | null; report: CheckReport } => {
  const { code, out } = commensal(['check', name, '--format', 'json', ...options]);
  return { code, report: JSON.parse(out) };
};
const planned = (name: string, ...options: string[]): Plan => JSON.parse(commensal(['plan', name, '--format', 'json', ...options]).out);
const chosenOf = (plan: Plan): string[] => plan.chosen.map(({ species }) => species);
const of = (report: { findings: readonly Finding[] }, rule: string): Finding[] =>
  report.findings.filter((finding) => finding.rule === rule);

const oneLine = (text: string): string => text.replaceAll(/\s+/g, ' ');

/** A grouper in reach of a basslet. */
const swallowing: NonNullable<Situation['residents']> = [
  { id: 'hind', name: 'Marlow', species: 'cephalopholis-miniata', length: { value: 20, unit: 'cm' } },
  { id: 'basslet', name: 'Tansy', species: 'gramma-loreto', length: { value: 4, unit: 'cm' } },
];
const KEY = 'gape:predator=hind,prey=basslet';

/** What the hind lacks besides is no matter here. */
const only = (...rules: string[]): NonNullable<Situation['settings']> => {
  const all: { rules: { id: string }[] } = JSON.parse(commensal(['rules', '--format', 'json']).out);
  return { off: all.rules.map(({ id }) => id).filter((id) => !rules.includes(id)) };
};
const gapeOnly = only('gape');

describe('exit codes of check', () => {
  test('0 where nothing fails', () => expect(checked(write({ settings: gapeOnly, residents: swallowing.slice(1) })).code).toBe(0));

  test('1 where an error fails', () => {
    const { code, report } = checked(write({ settings: gapeOnly, residents: swallowing }));
    expect(code).toBe(1);
    expect(of(report, 'gape').map(({ key, outcome, level }) => ({ key, outcome, level }))).toContainEqual({
      key: KEY,
      outcome: 'failed',
      level: 'error',
    });
  });

  test('1 with --strict where an error cannot be told, 0 without', () => {
    const { length: _, ...unmeasured } = swallowing[0] ?? { id: '', species: '' };
    const doubtful = write({ settings: gapeOnly, residents: [unmeasured, ...swallowing.slice(1)] });
    const { code, report } = checked(doubtful);
    expect(report.summary.failed.error).toBe(0);
    expect(report.summary.cantTell.error).toBeGreaterThan(0);
    expect(code).toBe(0);
    expect(checked(doubtful, '--strict').code).toBe(1);
  });

  test('0 with --strict where there is no doubt', () => {
    expect(checked(write({ settings: gapeOnly, residents: swallowing.slice(1) }), '--strict').code).toBe(0);
  });
});

describe('exit codes of plan', () => {
  test('0 with a plan, 1 where no wish can be granted, 0 where there are none', () => {
    const wishing = (wishes: NonNullable<Situation['wishes']>): number | null => commensal(['plan', write({ wishes })]).code;
    expect(wishing([{ species: 'gramma-loreto' }])).toBe(0);
    expect(wishing([{ species: 'naso-lituratus' }])).toBe(1);
    expect(wishing([])).toBe(0);
  });
});

describe('wishes that have to be in', () => {
  const must = (...species: string[]): string =>
    write({ settings: gapeOnly, wishes: [...species.map((one) => ({ species: one, must: true })), { species: 'zebrasoma-flavescens' }] });
  const both = must('pterois-volitans', 'gramma-loreto');

  test('and cannot be together leave no plan: code 1, and the text says what stands in the way', () => {
    const { code, out, err } = commensal(['plan', both]);
    expect({ code, err }).toEqual({ code: 1, err: '' });
    expect(oneLine(out)).toContain('There is no plan, as what has to be in cannot be. What stands in the way');
    expect(oneLine(out)).toMatch(/cannot be together: the .+ and the .+\. Without any one of them the others could be\. .*could swallow/);
    expect(out).not.toMatch(/What goes in|Days to keep/);
  });

  test('are named in JSON, with nothing chosen', () => {
    const { code, out } = commensal(['plan', both, '--format', 'json']);
    const { impossible, chosen, introductions }: Plan = JSON.parse(out);
    expect({ code, chosen, introductions }).toEqual({ code: 1, chosen: [], introductions: [] });
    expect([...(impossible?.species ?? [])].sort()).toEqual(['gramma-loreto', 'pterois-volitans']);
  });

  test('and can be are a plan: code 0', () => {
    const { code, out } = commensal(['plan', must('gramma-loreto'), '--format', 'json']);
    expect(code).toBe(0);
    expect(JSON.parse(out)).not.toHaveProperty('impossible');
    expect(chosenOf(JSON.parse(out))).toContain('gramma-loreto');
  });
});

describe('an accepted finding', () => {
  const accepting = (more: { until?: string } = {}, residents = swallowing): string =>
    write({ residents, settings: { ...gapeOnly, accepted: [{ key: KEY, reason: 'They have lived together for years.', ...more }] } });

  test('does not change the exit code any more, and stays visible', () => {
    const { code, report } = checked(accepting());
    expect(code).toBe(0);
    expect(report.summary).toMatchObject({ failed: { error: 0 }, accepted: 1 });
    expect(of(report, 'gape').find(({ key }) => key === KEY)?.accepted).toBe('They have lived together for years.');
    const { out } = commensal(['check', accepting()]);
    expect(oneLine(out)).toMatch(/Marlow .* can swallow Tansy .* \(Accepted: They have lived together for years\.\)/);
    expect(out).toContain('One finding is accepted.');
  });

  test('counts again from its day on, and that is said', () => {
    const name = accepting({ until: '2027-03-01' });
    const { code, report } = checked(name);
    expect(code).toBe(1);
    expect(report.staleAcceptances).toEqual([{ key: KEY, why: 'past-its-day' }]);
    expect(oneLine(commensal(['check', name]).out)).toContain(`look at the finding again: ${KEY}`);
    expect(checked(accepting({ until: '2027-03-02' })).code).toBe(0);
  });

  test('that is no longer found is said', () => {
    const key = 'gape:predator=basslet,prey=hind';
    const gone = write({ residents: swallowing, settings: { ...gapeOnly, accepted: [{ key, reason: 'It may yet.' }] } });
    expect(checked(gone).report.staleAcceptances).toEqual([{ key, why: 'not-found' }]);
    expect(oneLine(commensal(['check', gone]).out)).toContain(`An accepted finding no longer applies; take it out of the settings: ${key}`);
  });
});

describe('--as-of', () => {
  const young = write({ settings: gapeOnly, residents: swallowing.map((resident) => ({ ...resident, length: { value: 6, unit: 'cm' } })) });
  const predatorOn = (...options: string[]): number | undefined =>
    of(checked(young, ...options).report, 'gape').find(({ key }) => key === KEY)?.data.predatorLength?.value;

  test('moves the date of the result', () => {
    expect(checked(young, '--as-of', '2028-06-15').report.date).toBe('2028-06-15');
    expect(commensal(['check', young, '--as-of', '2028-06-15']).out).toContain('Check of 15 June 2028');
  });

  test('the day of the situation changes nothing', () => expect(checked(young, '--as-of', '2027-03-01')).toEqual(checked(young)));

  test('animals measured on the old day have grown by then', () => {
    const later = predatorOn('--as-of', '2029-03-01');
    expect(later).toBeGreaterThan(6);
    expect(checked(young, '--as-of', '2029-03-01').report.findings).not.toEqual(checked(young).report.findings);
  });

  test('a length with its own day counts from that day', () => {
    const dated = write({
      settings: gapeOnly,
      residents: swallowing.map((resident) => ({ ...resident, length: { value: 6, unit: 'cm' }, measuredOn: '2027-03-01' })),
    });
    expect(checked(dated, '--as-of', '2029-03-01').report).toEqual(checked(young, '--as-of', '2029-03-01').report);
  });
});

describe('order plays no part', () => {
  test('of wishes: the same plan, listed in the order of the list', () => {
    const turned = planned(changed(({ wishes }) => wishes?.reverse()));
    const straight = planned(changed(() => {}));
    expect(turned.introductions).toEqual(straight.introductions);
    expect(turned.chosen).toEqual([...straight.chosen].reverse());
    expect(turned.leftOut).toEqual([...straight.leftOut].reverse());
    expect(turned.findings).toEqual(straight.findings);
  });

  test('of residents and of names within objects: the same bytes', () => {
    const twoFold = (flip: boolean): string => {
      const residents = flip
        ? [...swallowing].reverse().map((resident) => Object.fromEntries(Object.entries(resident).reverse()))
        : swallowing;
      return commensal(['check', write({ settings: gapeOnly, residents: residents as typeof swallowing })]).out;
    };
    expect(twoFold(true)).toBe(twoFold(false));
  });
});

describe('one number changes what comes out', () => {
  test('less rock: territories crowd it', () => {
    const crowding = (kg: number): Finding[] => {
      const name = write({
        tank: { ...example().tank, rock: { mass: { value: kg, unit: 'kg' } } },
        residents: ['zebrasoma-flavescens', 'ctenochaetus-strigosus'].map((species, index) => ({
          id: `tang-${index}`,
          species,
          length: { value: 12, unit: 'cm' },
        })),
      });
      return of(checked(name).report, 'rock-crowding').filter(({ outcome }) => outcome === 'failed');
    };
    expect(crowding(200)).toEqual([]);
    expect(crowding(8).length).toBeGreaterThan(0);
  });

  test('less rock in the example: a plan with fewer claims', () => {
    const withRock = (kg: number): Plan =>
      planned(changed(({ tank }) => Object.assign(tank, { rock: { mass: { value: kg, unit: 'kg' } } })));
    const [much, little] = [withRock(30), withRock(8)];
    expect(chosenOf(little)).not.toEqual(chosenOf(much));
    expect(little.leftOut.flatMap(({ because }) => because.map(({ rule }) => rule))).toContain('rock-crowding');
    expect(much.leftOut.flatMap(({ because }) => because.map(({ rule }) => rule))).not.toContain('rock-crowding');
  });

  test('a longer newcomer is out of reach', () => {
    const entering = (cm: number): boolean => {
      const name = write({
        settings: { ...gapeOnly, horizonDays: 0 },
        residents: [{ id: 'hind', species: 'cephalopholis-urodeta', length: { value: 9, unit: 'cm' } }],
        introductions: [{ date: '2027-03-01', animals: [{ id: 'new', species: 'gramma-loreto', length: { value: cm, unit: 'cm' } }] }],
      });
      return of(checked(name).report, 'gape').some(
        ({ key, outcome, message }) => key === 'gape:predator=hind,prey=new' && outcome === 'failed' && message !== 'gape.fitsAtFullSize',
      );
    };
    expect(entering(3)).toBe(true);
    expect(entering(8)).toBe(false);
  });

  test('a longer resident can swallow what a shorter one cannot', () => {
    const reaches = (cm: number): boolean =>
      of(
        checked(
          write({
            settings: gapeOnly,
            residents: swallowing.map((resident) =>
              resident.id === 'hind' ? { ...resident, length: { value: cm, unit: 'cm' } } : resident,
            ),
          }),
        ).report,
        'gape',
      ).some(({ key, message }) => key === KEY && message === 'gape.fitsNow');
    expect(reaches(5)).toBe(false);
    expect(reaches(25)).toBe(true);
  });

  test('a more experienced keeper', () => {
    const tierOf = (careTier: number): string[] =>
      of(
        checked(
          write({ keeper: { careTier }, residents: [{ id: 'idol', species: 'zanclus-cornutus', length: { value: 10, unit: 'cm' } }] }),
        ).report,
        'care-tier',
      ).map(({ message }) => message);
    expect([1, 2, 3].map(tierOf)).toEqual([['care-tier.farAbove'], ['care-tier.unprovided'], []]);
  });

  test('colder water', () => {
    const at = (low: number, high: number): string[] =>
      of(
        checked(write({ tank: { ...example().tank, temperature: { low, high, unit: 'Cel' } }, residents: swallowing })).report,
        'water',
      ).map(({ key, level }) => `${level} ${key}`);
    expect(at(24.5, 26)).toEqual([]);
    expect(at(18, 19)).toContain('error water:temperature=basslet');
  });

  test('a longer tank', () => {
    const roomIn = (cm: number): string[] =>
      of(
        checked(
          write({
            tank: {
              ...example().tank,
              water: { value: 900, unit: 'L' },
              width: { value: 80, unit: 'cm' },
              length: { value: cm, unit: 'cm' },
            },
            residents: [{ id: 'tang', species: 'zebrasoma-flavescens', length: { value: 10, unit: 'cm' } }],
          }),
        ).report,
        'swimming-room',
      ).map(({ level, outcome }) => `${outcome} ${level}`);
    expect(roomIn(300)).toEqual([]);
    expect(roomIn(100)).toEqual(['failed warning']);
    expect(roomIn(50)).toEqual(['failed error']);
  });
});
