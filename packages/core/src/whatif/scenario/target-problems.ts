import type { Problem, Situation } from '@commensal/schema';
import { isConvertible } from '../../quantity/units.js';
import { type Library, recordOf } from '../../stock/library.js';
import type { Variable } from '../study/variable.js';
import { keysOf } from './scenario-of.js';

/** What is wrong with the places that variables go to; `pointerOf` says where the n-th place of the n-th variable stands in the study. */
export function targetProblems(situation: Situation, library: Library, variables: readonly Variable[]): Problem[] {
  return variables.flatMap((variable, index) =>
    variable.whole !== undefined
      ? []
      : variable.at.flatMap((place, entry) =>
          placeProblems(situation, library, variable, place, `/vary/${index}/at/${entry}`, `/vary/${index}`),
        ),
  );
}

/** Figures of records that stand-ins may take the place of: a study can give them where a record does not. */
const FIGURES: ReadonlySet<string> = new Set([
  'size/captiveAdult',
  'size/entry',
  'size/totalPerStandard',
  'growth/asymptoticLength',
  'growth/rate',
  'shape/bodyDepth',
  'shape/defendedDepth',
  'shape/swallowTrial',
  'shape/gapeWidth',
  'shape/lowerJaw',
  'conduct/rockClaim',
]);

function placeProblems(situation: Situation, library: Library, variable: Variable, place: string, at: string, whole: string): Problem[] {
  const keys = keysOf(place);
  const [root, id = ''] = keys;
  if (root === 'species' && !library.records.has(id)) {
    return [
      problem(
        'unknown-species',
        at,
        `"${id}"`,
        'the id of a species record',
        'Write the id as genus and species in lower case, joined by a hyphen.',
      ),
    ];
  }
  const old = keys.reduce<unknown>(memberOf, { situation, species: { [id]: library.records.get(id) } });
  if (old === undefined && variable.unit !== undefined && root === 'species' && FIGURES.has(keys.slice(2).join('/'))) return [];
  if (old === undefined) {
    return [
      problem('no-such-place', at, `there is nothing at "${place}"`, 'a variable goes to a place that is there', 'Correct the pointer.'),
    ];
  }
  const told = (found: string, allowed: string, fix: string): Problem[] => [problem('wrong-place', whole, found, allowed, fix)];
  if (variable.words !== undefined && keys.at(-1) === 'species') {
    return variable.words.flatMap((word, index) =>
      recordOf(library, word) === undefined
        ? [
            problem(
              'unknown-species',
              `${whole}/over/words/${index}`,
              `"${word}"`,
              'the id of a species record',
              'Write the id as genus and species in lower case, joined by a hyphen.',
            ),
          ]
        : [],
    );
  }
  if (variable.words !== undefined) {
    return typeof old === 'string'
      ? []
      : told(`words go to "${place}", where ${wordsFor(old)} stands`, 'words go where a word stands', 'Draw numbers, or point to a word.');
  }
  if (typeof old === 'string') {
    const isDay = /^\d{4}-\d{2}-\d{2}$/.test(old);
    if (isDay && variable.unit === 'd') return [];
    return isDay
      ? told(`numbers go to the day at "${place}"`, 'they are days after the day of the situation, with the unit d', 'Write "unit": "d".')
      : told(`numbers go to the word at "${place}"`, 'a word takes words', 'Draw words, or point to a figure.');
  }
  if (typeof old === 'number') {
    if (variable.unit !== undefined)
      return told(
        `"${place}" is a bare number, the variable has the unit "${variable.unit}"`,
        'a bare number has no unit',
        'Leave the unit out.',
      );
    if (variable.isWhole || keys[1] === 'settings') return [];
    return told(
      `broken numbers go to "${place}", which counts something`,
      'a count takes whole numbers',
      'Draw from a list or a range of whole numbers.',
    );
  }
  const unit = unitIn(old);
  if (unit === undefined)
    return told(
      `"${place}" is ${wordsFor(old)}`,
      'a variable goes to a figure with a unit, a number, a day or a word',
      'Point to one of those.',
    );
  if (variable.unit === undefined)
    return told(`"${place}" is a figure with a unit, the variable has none`, `a unit such as ${unit}`, `Write "unit": "${unit}".`);
  return variable.unit === unit || isConvertible(variable.unit, unit)
    ? []
    : told(
        `the unit is "${variable.unit}", at "${place}" it is "${unit}"`,
        'units must measure the same',
        `Use "${unit}", or a unit it converts to.`,
      );
}

const problem = (code: string, pointer: string, found: string, allowed: string, fix: string): Problem => ({
  code,
  pointer,
  found,
  allowed,
  fix,
});

const memberOf = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null && Object.hasOwn(value, key) ? (value as Readonly<Record<string, unknown>>)[key] : undefined;

function unitIn(value: unknown): string | undefined {
  const unit = memberOf(value, 'unit');
  return typeof unit === 'string' ? unit : undefined;
}

const wordsFor = (value: unknown): string =>
  Array.isArray(value)
    ? 'a list'
    : typeof value === 'object'
      ? 'an object'
      : typeof value === 'boolean'
        ? 'true or false'
        : `a ${typeof value}`;
