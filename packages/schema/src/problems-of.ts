import { inDocumentOrder } from './in-document-order.js';
import { patternWords } from './pattern-words.js';
import { childPointer, placeName, valueAt } from './pointer.js';
import type { Problem } from './problem.js';
import type { ValidationFault } from './validation-fault.js';
import { didYouMean, listWords, nearestWord, valueWords } from './words.js';

const TYPE_WORDS: Readonly<Record<string, string>> = {
  object: 'an object in braces',
  array: 'a list in brackets',
  string: 'text in quotes',
  number: 'a number without quotes',
  integer: 'a whole number without quotes',
  boolean: 'true or false without quotes',
  null: 'null',
};

/** Why a property does not go with the `basis` beside it. */
const OUT_OF_PLACE: Readonly<Record<string, string>> = {
  source: 'a figure from practice or memory has no source',
  formula: 'only a derived figure has a formula',
  from: 'only an imputed figure says from which group it comes',
};

interface Range {
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
}

function rangeWords({ minimum, exclusiveMinimum, maximum }: Range): string {
  const end = maximum === undefined ? '' : ` and at most ${maximum}`;
  if (exclusiveMinimum !== undefined) return `it must be more than ${exclusiveMinimum}${end}`;
  if (minimum !== undefined) return maximum === undefined ? `it must be at least ${minimum}` : `it must be from ${minimum} to ${maximum}`;
  return `it must be at most ${maximum}`;
}

/** What a fault wants beside what is there, if that is what it is about. */
function missingOf(fault: ValidationFault): string | undefined {
  if (fault.keyword === 'required') return fault.detail as string;
  if (fault.keyword === 'dependentRequired') return (fault.detail as { missingProperty: string }).missingProperty;
  return undefined;
}

interface UnknownName {
  readonly unknown: string;
  readonly known: readonly string[];
}

/** The properties that an unknown one may be a slip of the pen for: those that are not there besides. */
function notThere({ detail, instancePath }: ValidationFault, document: unknown): string[] {
  const there = Object.keys(valueAt(document, instancePath) as object);
  return (detail as UnknownName).known.filter((name) => !there.includes(name));
}

/** Faults that are one mistake have one key. */
function mistakeOf(fault: ValidationFault): string {
  const what = missingOf(fault) ?? (fault.keyword === 'closed' ? (fault.detail as UnknownName).unknown : '');
  return `${fault.instancePath} ${missingOf(fault) === undefined ? fault.keyword : 'missing'} ${what}`;
}

/**
 * One fault for each mistake. A validator reports every keyword that does not hold: of a `oneOf` told apart by
 * kind also the choice, of an `anyOf` each branch, of a word not in the list also a wrong type.
 */
function mistakesIn(faults: readonly ValidationFault[], document: unknown): ValidationFault[] {
  const placesOf = (...keywords: string[]): Set<string> =>
    new Set(faults.filter(({ keyword }) => keywords.includes(keyword)).map((fault) => fault.instancePath));
  const listed = placesOf('enum', 'const');
  const measured = placesOf('characters');
  const mistakes = new Map<string, ValidationFault>();
  for (const fault of faults) {
    if (fault.within === 'anyOf' || fault.within === 'propertyNames') continue;
    // The list of kinds beside a discriminator says the same.
    if (fault.keyword === 'discriminator') continue;
    // What is no text is not in the list either, and what is empty has no form.
    if (fault.keyword === 'type' && listed.has(fault.instancePath)) continue;
    if (fault.keyword === 'pattern' && measured.has(fault.instancePath) && valueAt(document, fault.instancePath) === '') continue;
    const mistake = mistakeOf(fault);
    if (!mistakes.has(mistake)) mistakes.set(mistake, fault);
  }
  for (const fault of faults) {
    if (fault.keyword !== 'anyOf') continue;
    // Where `low` is missing beside `high`, that `value` is missing as well is no second mistake.
    const said = branchesOf(fault, faults).some((branch) => branch.keyword === 'required' && mistakes.has(mistakeOf(branch)));
    if (said) mistakes.delete(mistakeOf(fault));
  }
  for (const fault of faults) {
    if (fault.keyword !== 'closed') continue;
    // A misspelt property is unknown by one name and missing by another.
    const meant = nearestWord((fault.detail as UnknownName).unknown, notThere(fault, document));
    const also = faults.filter((other) => other.instancePath === fault.instancePath && meant !== undefined && missingOf(other) === meant);
    for (const { instancePath, within } of also) mistakes.delete(`${instancePath} ${within === 'anyOf' ? 'anyOf ' : `missing ${meant}`}`);
  }
  return [...mistakes.values()];
}

function branchesOf(anyOf: ValidationFault, faults: readonly ValidationFault[]): ValidationFault[] {
  return faults.filter((fault) => fault.within === 'anyOf' && fault.instancePath === anyOf.instancePath);
}

type Texts = Omit<Problem, 'pointer'> & { readonly pointer?: string };

function wrongType(place: string, value: unknown, types: readonly string[]): Texts {
  const expected = listWords(types.map((type) => TYPE_WORDS[type] ?? type));
  return { code: 'wrong-type', found: `${place} is ${valueWords(value)}`, allowed: `it must be ${expected}`, fix: `Write ${expected}.` };
}

function wrongForm(place: string, value: unknown, pattern: string): Texts {
  return {
    code: 'wrong-form',
    found: `${place} is ${valueWords(value)}`,
    allowed: `it must be ${patternWords(pattern)}`,
    fix: 'Write it in that form.',
  };
}

function missing(fault: ValidationFault, name: string, place: string, value: unknown): Texts {
  const fix = `Add "${name}"`;
  if (fault.keyword === 'dependentRequired') {
    const { property } = fault.detail as { property: string };
    return {
      code: 'needs-also',
      found: `${place} has "${property}" but no "${name}"`,
      allowed: `"${property}" needs "${name}" beside it`,
      fix: `${fix}, or take "${property}" out.`,
    };
  }
  if (fault.within === 'then') {
    const basis = valueWords(valueAt(value, '/basis'));
    return {
      code: 'needs-also',
      found: `${place} has the basis ${basis} but no "${name}"`,
      allowed: `with the basis ${basis}, "${name}" must be given`,
      fix: `${fix}, or give the basis that fits.`,
    };
  }
  return { code: 'missing-property', found: `${place} has no "${name}"`, allowed: `"${name}" must be given`, fix: `${fix}.` };
}

function oneOfSeveral(fault: ValidationFault, faults: readonly ValidationFault[], place: string, value: unknown): Texts {
  const branches = branchesOf(fault, faults);
  const names = branches.flatMap((branch) => missingOf(branch) ?? []);
  if (names.length > 0) {
    const isNumber = names.includes('value');
    const found = `${place} has neither ${listWords(
      names.map((name) => `"${name}"`),
      'nor',
    )}`;
    if (isNumber)
      return { code: 'no-number', found, allowed: '"value" must be given, or "low" and "high", or all three', fix: 'Add the number.' };
    return { code: 'needs-one-of', found, allowed: 'one of them must be given', fix: `Add "${names[0]}" or another of them.` };
  }
  // A branch that found the right type is the one that was meant.
  const form = branches.find((branch) => branch.keyword === 'pattern');
  if (form !== undefined) return wrongForm(place, value, form.detail as string);
  return wrongType(
    place,
    value,
    branches.filter((branch) => branch.keyword === 'type').map((branch) => branch.detail as string),
  );
}

/** Whether a unit stands beside the number. */
const hasUnit = ({ instancePath }: ValidationFault, document: unknown): boolean =>
  valueAt(document, instancePath.replace(/[^/]*$/, 'unit')) !== undefined;

function limits(fault: ValidationFault, place: string, value: unknown, document: unknown): Texts {
  if (fault.keyword === 'range') {
    const range = fault.detail as Range;
    const large = range.maximum !== undefined && (value as number) > range.maximum;
    return {
      code: large ? 'too-large' : 'too-small',
      found: `${place} is ${valueWords(value)}`,
      allowed: rangeWords(range),
      fix: hasUnit(fault, document) ? 'Give a number in that range; check the unit as well.' : 'Give a number in that range.',
    };
  }
  if (fault.keyword === 'characters') {
    const [least, most] = fault.detail as readonly [number, number];
    const count = [...(value as string)].length;
    const allowed = least === 0 ? `it must have at most ${most} characters` : `it must have from ${least} to ${most} characters`;
    if (count < least) return { code: 'too-short', found: `${place} is empty`, allowed, fix: 'Fill it in, or take it out.' };
    return { code: 'too-long', found: `${place} has ${count} characters`, allowed, fix: 'Shorten it.' };
  }
  const few = fault.keyword !== 'maxItems';
  const count = Object.keys(value as object).length;
  return {
    code: few ? 'too-few' : 'too-many',
    found: `${place} has ${count === 1 ? '1 entry' : `${count} entries`}`,
    allowed: `it must have at ${few ? 'least' : 'most'} ${String(fault.detail)}`,
    fix: few ? 'Fill it in, or take it out.' : 'Take some out.',
  };
}

function textsOf(fault: ValidationFault, faults: readonly ValidationFault[], document: unknown): Texts {
  const { instancePath, detail } = fault;
  const value = valueAt(document, instancePath);
  const place = placeName(instancePath);
  const found = `${place} is ${valueWords(value)}`;
  switch (fault.keyword) {
    case 'required':
    case 'dependentRequired':
      return missing(fault, missingOf(fault) as string, place, value);
    case 'closed': {
      const { unknown, known } = detail as UnknownName;
      return {
        code: 'unknown-property',
        pointer: childPointer(instancePath, unknown),
        found: `${place} has ${valueWords(unknown)}`,
        allowed: `it may have ${listWords(known)}`,
        fix: didYouMean(unknown, notThere(fault, document), 'Take it out.'),
      };
    }
    case 'type':
      return wrongType(place, value, [detail as string]);
    case 'const':
      return { code: 'wrong-value', found, allowed: `it must be ${valueWords(detail)}`, fix: `Write ${valueWords(detail)}.` };
    case 'enum': {
      const words = detail as readonly string[];
      return {
        code: 'not-in-list',
        found,
        allowed: `it must be ${listWords(words)}`,
        fix: didYouMean(value, words, words.length === 1 ? `Write "${words[0]}".` : 'Choose one of these words.'),
      };
    }
    case 'pattern':
      return wrongForm(place, value, detail as string);
    case 'propertyNames': {
      const pattern = faults.find((other) => other.within === 'propertyNames' && other.instancePath === instancePath);
      const pointer = childPointer(instancePath, detail as string);
      return { ...wrongForm(`the name of ${placeName(pointer)}`, detail, pattern?.detail as string), pointer };
    }
    case 'uniqueItems': {
      const { i, j } = detail as { i: number; j: number };
      const [first, second] = [Math.min(i, j), Math.max(i, j)];
      const pointer = childPointer(instancePath, second);
      return {
        code: 'duplicate-item',
        pointer,
        found: `${placeName(pointer)} is ${valueWords(valueAt(document, pointer))}, and so is ${placeName(childPointer(instancePath, first))}`,
        allowed: 'each may stand there once',
        fix: 'Take one of them out.',
      };
    }
    case 'false schema':
      return {
        code: 'not-allowed-here',
        found: `${found} beside the basis ${valueWords(valueAt(document, instancePath.replace(/[^/]*$/, 'basis')))}`,
        allowed: OUT_OF_PLACE[instancePath.slice(instancePath.lastIndexOf('/') + 1)] ?? 'it does not go with the basis',
        fix: 'Take it out, or give the basis that fits.',
      };
    case 'anyOf':
      return oneOfSeveral(fault, faults, place, value);
    default:
      return limits(fault, place, value, document);
  }
}

/**
 * What is wrong with a document, in plain words and in the order of the document, from the faults that its
 * validator found. One mistake gives one problem.
 *
 * @example
 * problemsOf([{ instancePath: '/tank', keyword: 'required', detail: 'water' }], { tank: {} })[0].found
 * // 'tank has no "water"'
 */
export function problemsOf(faults: readonly ValidationFault[], document: unknown): Problem[] {
  const problems = mistakesIn(faults, document).map(
    (fault): Problem => ({ pointer: fault.instancePath, ...textsOf(fault, faults, document) }),
  );
  return inDocumentOrder(document, problems);
}
