import { Ajv2020, type ErrorObject } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ValidationFault } from '../src/index.js';
import { childPointer } from '../src/pointer.js';
import { patched } from '../tools/patch.mjs';
import { documentsUnderTest, type Json } from './documents.js';

const RUNS = Number(process.env.COMMENSAL_RUNS ?? 1000);

/** The validators join keywords and leave out what repeats another fault: these names make both sides comparable. */
const JOINED: Readonly<Record<string, string>> = {
  minimum: 'range',
  exclusiveMinimum: 'range',
  maximum: 'range',
  minLength: 'characters',
  maxLength: 'characters',
  additionalProperties: 'closed',
};

/** The parameter of a fault of Ajv that a validator keeps as its detail. */
const KEPT: Readonly<Record<string, string>> = {
  type: 'type',
  required: 'missingProperty',
  dependentRequired: 'missingProperty',
  additionalProperties: 'additionalProperty',
  enum: 'allowedValues',
  const: 'allowedValue',
  pattern: 'pattern',
  minItems: 'limit',
  maxItems: 'limit',
  minProperties: 'limit',
  propertyNames: 'propertyName',
};

/** Faults as lines to compare. A type beside a list of words says what the list says; the validators may leave it out. */
function lines(
  faults: readonly { readonly place: string; readonly keyword: string; readonly within: string; readonly detail: unknown }[],
): string[] {
  const listed = new Set(faults.filter(({ keyword }) => keyword === 'enum' || keyword === 'const').map(({ place }) => place));
  const kept = faults.filter(({ keyword, place }) => !(keyword === 'type' && listed.has(place)));
  return [...new Set(kept.map(({ place, keyword, within, detail }) => `${place} ${within} ${keyword} ${JSON.stringify(detail)}`))].sort();
}

function expectedFaults(errors: readonly ErrorObject[]): string[] {
  return lines(
    errors
      // What a condition leads to is a fault of its own.
      .filter(({ keyword }) => keyword !== 'if')
      .map(({ instancePath, schemaPath, keyword, params }) => ({
        place: instancePath,
        keyword: JOINED[keyword] ?? keyword,
        within: /\/(anyOf|then|propertyNames)\//.exec(schemaPath)?.[1] ?? '',
        detail: params[KEPT[keyword] ?? ''],
      })),
  );
}

function foundFaults(faults: readonly ValidationFault[]): string[] {
  const part = (detail: unknown, name: string): unknown => (detail as Readonly<Record<string, unknown>>)[name];
  return lines(
    faults.map(({ instancePath, keyword, within, detail }) => {
      const kept =
        keyword === 'dependentRequired' ? part(detail, 'missingProperty') : keyword === 'closed' ? part(detail, 'unknown') : detail;
      const compared = ['range', 'characters', 'uniqueItems', 'discriminator'].includes(keyword) ? undefined : kept;
      return { place: instancePath, keyword, within: within ?? '', detail: compared };
    }),
  );
}

/** Every place in a document. */
function placesOf(value: Json, pointer = ''): string[] {
  if (typeof value !== 'object' || value === null) return [pointer];
  return [pointer, ...Object.entries(value).flatMap(([key, member]) => placesOf(member, childPointer(pointer, key)))];
}

const anyValue = fc.oneof(
  fc.jsonValue({ maxDepth: 2 }),
  fc.integer({ min: -5, max: 20 }),
  fc.constantFrom(
    'cm',
    'practice',
    'measured',
    'imputed',
    'tank-divided',
    'more-rock',
    '2027-03-01',
    'a'.repeat(600),
    '\u{1f41f}'.repeat(100),
    {},
    [],
    { kind: 'rock-relaid' },
  ),
);

describe.each(documentsUnderTest)(
  'the validator of $name',
  ({ schema, validate, problems, positives, constraintNegatives, furtherNegatives }) => {
    const ajv = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, allErrors: true, discriminator: true });
    const reference = ajv.compile(schema);

    const agree = (data: unknown): void => {
      expect(validate(data)).toBe(reference(data));
      expect(foundFaults(validate.errors ?? [])).toEqual(expectedFaults(reference.errors ?? []));
    };

    it('finds what plain Ajv finds in the examples', () => {
      for (const document of positives.values()) agree(document);
      for (const { from, patch } of [...constraintNegatives, ...furtherNegatives]) agree(patched(positives.get(from), patch));
    });

    it('finds what plain Ajv finds where anything stands anywhere, and there is a problem for it', () => {
      const documents = [...positives.values()];
      const broken = fc.constantFrom(...documents).chain((document) =>
        fc
          .array(fc.record({ op: fc.constantFrom('replace', 'remove'), path: fc.constantFrom(...placesOf(document)), value: anyValue }), {
            minLength: 1,
            maxLength: 3,
          })
          .map((operations) => ({ document, operations })),
      );
      fc.assert(
        fc.property(broken, ({ document, operations }) => {
          let data: unknown;
          try {
            data = patched(
              document,
              operations.map((operation) => (operation.path === '' ? { ...operation, op: 'replace' } : operation)),
            );
          } catch {
            // The first change took away the place of the second.
            return;
          }
          agree(data);
          if (!validate(data)) expect(problems(data).length).toBeGreaterThan(0);
          expect(problems(data)).toEqual(problems(data));
        }),
        { numRuns: RUNS },
      );
    });
  },
);
