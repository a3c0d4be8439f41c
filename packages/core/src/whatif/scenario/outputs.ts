import type { Level, Problem, Situation, StudyOutput } from '@commensal/schema';
import { nearMiss } from '../../check/near-miss.js';
import { LEVELS } from '../../rules/levels.js';
import type { AnyRule } from '../../rules/rule.js';
import { type Column, columnName } from '../study/column.js';

/** What a rule can come to in a scenario, the worst last save that a rule can be switched off. */
export const OUTCOMES = ['inapplicable', 'passed', 'cantTell', 'failed', 'untested'] as const;

/** What is asked of one rule: where its outcome and level go, or its first failure. */
export interface Asking {
  readonly what: 'outcome' | 'first-failure';
  /** Column of the outputs, counted from 0; the level of an outcome stands in the next. */
  readonly column: number;
  /** Ids that a finding must name; none asks for all findings. */
  readonly subjects: readonly string[];
  /** Place of the least level in LEVELS. */
  readonly from: number;
}

/** Whether the worst outcome of a rule is asked, whomever it is about: what kernels answer. */
export const isOutright = ({ what, subjects }: Asking): boolean => what === 'outcome' && subjects.length === 0;

/** The outputs of a study, sorted by what they cost. */
export interface Asked {
  readonly columns: readonly Column[];
  readonly problems: readonly Problem[];
  readonly byRule: ReadonlyMap<AnyRule, readonly Asking[]>;
  readonly missingRock: number | undefined;
  readonly peakAmmonia: number | undefined;
  readonly bestSet: number | undefined;
  /** First column of the species chosen, and their ids. */
  readonly chosen: { readonly column: number; readonly species: readonly string[] } | undefined;
}

/** Columns and places of what a study measures. `species` are those that can be wished for in a scenario. */
export function askedFor(
  outputs: readonly StudyOutput[],
  situation: Situation,
  rules: readonly AnyRule[],
  species: readonly string[],
): Asked {
  const columns: Column[] = [];
  const problems: Problem[] = [];
  const byRule = new Map<AnyRule, Asking[]>();
  const animals = new Set([
    ...(situation.residents ?? []).map(({ id }) => id),
    ...(situation.introductions ?? []).flatMap((introduction) => introduction.animals.map((animal) => animal.id ?? animal.species)),
  ]);
  const add = (column: Omit<Column, 'of'>): number => {
    if (columns.some(({ name }) => name === column.name)) return -1;
    columns.push({ ...column, of: 'output' });
    return columns.length - 1;
  };
  const ask = (rule: AnyRule, asking: Asking): void => {
    byRule.set(rule, [...(byRule.get(rule) ?? []), asking]);
  };
  let missingRock: number | undefined;
  let peakAmmonia: number | undefined;
  let bestSet: number | undefined;
  let chosen: Asked['chosen'];
  outputs.forEach((output, index) => {
    const pointer = `/outputs/${index}`;
    const many = columns.length;
    switch (output.kind) {
      case 'outcome': {
        const wanted = output.rule === undefined ? rules : ruleOf(output.rule, rules, pointer, problems);
        for (const rule of wanted) {
          const about = aboutOf(output.subjects);
          const subjects = known(output.subjects, animals, pointer, problems);
          const name = columnName(rule.id, ...(output.subjects ?? []));
          const column = add({
            name: `${name}_outcome`,
            kind: 'code',
            codes: OUTCOMES,
            description: `What rule ${rule.id} comes to at worst${about}.`,
          });
          if (column < 0) continue;
          add({
            name: `${name}_level`,
            kind: 'code',
            codes: LEVELS,
            description: `The gravest level of that outcome${about}; nothing where it passed.`,
          });
          ask(rule, { what: 'outcome', column, subjects, from: 0 });
        }
        break;
      }
      case 'first-failure': {
        for (const rule of ruleOf(output.rule, rules, pointer, problems)) {
          const subjects = known(output.subjects, animals, pointer, problems);
          const level = output.level ?? 'note';
          const suffix = output.level === undefined ? '' : `_${output.level}`;
          const column = add({
            name: `${columnName(rule.id, ...(output.subjects ?? []))}${suffix}_first`,
            kind: 'day',
            unit: 'd',
            description: `First day on which rule ${rule.id} fails${levelWords(output.level)}${aboutOf(output.subjects)}, in days after the day of the situation; nothing where it does not, or has no day.`,
          });
          if (column >= 0) ask(rule, { what: 'first-failure', column, subjects, from: LEVELS.indexOf(level) });
        }
        break;
      }
      case 'missing-rock':
        missingRock = add({
          name: 'missing_rock',
          kind: 'number',
          unit: 'L',
          description: 'Rock that is missing where territories weigh most; 0 where there is enough, nothing where the rock is not told.',
        });
        break;
      case 'peak-ammonia':
        peakAmmonia = add({
          name: 'peak_ammonia',
          kind: 'number',
          unit: 'mg/L',
          description: 'Highest un-ionised ammonia after any batch, as nitrogen, with the middle of all figures; nothing without batches.',
        });
        break;
      case 'best-set':
        bestSet = add({ name: 'set_animals', kind: 'integer', unit: '1', description: 'How many animals of the wish list go in.' });
        add({ name: 'set_worth', kind: 'number', unit: '1', description: 'Priorities of what goes in, added up.' });
        add({
          name: 'set_proven',
          kind: 'integer',
          unit: '1',
          description: '1 where no better set exists under these rules, 0 where that is not proven.',
        });
        add({
          name: 'set_days',
          kind: 'day',
          unit: 'd',
          description: 'Day of the last introduction, in days after the day of the situation; nothing where nothing goes in.',
        });
        break;
      case 'chosen': {
        const first = columns.length;
        for (const id of species)
          add({ name: `chosen_${columnName(id)}`, kind: 'integer', unit: '1', description: `How many of ${id} go in.` });
        chosen = { column: first, species };
        break;
      }
    }
    if (columns.length === many && problems.length === 0) problems.push(twice(pointer));
  });
  return { columns, problems, byRule, missingRock, peakAmmonia, bestSet, chosen };
}

const twice = (pointer: string): Problem => ({
  code: 'duplicate-id',
  pointer,
  found: 'the same is measured twice, or there is nothing to measure',
  allowed: 'each output once; "chosen" needs wishes',
  fix: 'Take one of them out.',
});

const aboutOf = (subjects: readonly string[] | undefined): string => (subjects === undefined ? '' : ` between ${subjects.join(' and ')}`);
const levelWords = (level: Level | undefined): string =>
  level === undefined || level === 'note' ? '' : ` at level ${level}${level === 'error' ? '' : ' or graver'}`;

function ruleOf(id: string, rules: readonly AnyRule[], pointer: string, problems: Problem[]): readonly AnyRule[] {
  const rule = rules.find((one) => one.id === id);
  if (rule !== undefined) return [rule];
  const ids = rules.map((one) => one.id);
  const near = nearMiss(id, ids);
  problems.push({
    code: 'unknown-rule',
    pointer: `${pointer}/rule`,
    found: `"${id}" is no rule`,
    allowed: `the rules are ${ids.join(', ')}`,
    fix: near === undefined ? 'Name one of them.' : `Did you mean "${near}"?`,
  });
  return [];
}

function known(
  subjects: readonly string[] | undefined,
  animals: ReadonlySet<string>,
  pointer: string,
  problems: Problem[],
): readonly string[] {
  (subjects ?? []).forEach((id, index) => {
    if (animals.has(id.split('#')[0] as string)) return;
    const place = `${pointer}/subjects/${index}`;
    if (problems.some((problem) => problem.pointer === place)) return;
    const near = nearMiss(id, [...animals]);
    problems.push({
      code: 'unknown-animal',
      pointer: place,
      found: `"${id}" is no animal of the situation`,
      allowed: 'residents and newcomers by their ids',
      fix: near === undefined ? 'Name one of them by its id.' : `Did you mean "${near}"?`,
    });
  });
  return subjects ?? [];
}
