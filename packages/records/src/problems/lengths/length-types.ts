import { childPointer, placeName, type SpeciesRecord } from '@commensal/schema';
import type { RecordCheck, Suspicion } from '../suspicion.js';

/** Types that need a tail fin, and those of animals without one. */
const OF_FISHES = ['SL', 'FL'];
const OF_OTHERS = ['DM', 'SH'];

/** The quantities of a record that may say of which length they are, with their pointers. */
function typedIn({ size = {}, growth = {}, shape = {} }: SpeciesRecord): [pointer: string, quantity: object][] {
  return Object.entries({ size, growth, shape }).flatMap(([part, quantities]) =>
    Object.entries(quantities as Readonly<Record<string, object>>).flatMap(([name, one]): [string, object][] =>
      Array.isArray(one) ? one.map((each: object, index) => [`/${part}/${name}/${index}`, each]) : [[`/${part}/${name}`, one]],
    ),
  );
}

/** `length-type-of-form`: a diameter of a fish, a standard length of a snail. */
export const lengthTypeOfForm: RecordCheck = (record) => {
  const isFish = record.form === 'fish';
  const wrong = isFish ? OF_OTHERS : OF_FISHES;
  return typedIn(record).flatMap(([pointer, quantity]) =>
    (['lengthType', 'per'] as const).flatMap((name): Suspicion[] => {
      const type = (quantity as Readonly<Record<string, unknown>>)[name];
      if (typeof type !== 'string' || !wrong.includes(type)) return [];
      const place = childPointer(pointer, name);
      return [
        {
          problem: {
            code: 'length-type-of-form',
            pointer: place,
            found: `${placeName(place)} is "${type}" in a record of the form "${record.form}"`,
            allowed: isFish
              ? 'fishes have TL, SL or FL; DM and SH are for animals without a tail fin'
              : 'animals without a tail fin have TL, DM or SH; SL and FL are for fishes',
            fix: 'Give the type that was measured; look whether the form is right.',
          },
          reads: [pointer],
        },
      ];
    }),
  );
};

/** `length-type-missing`: a third of all errors in lengths are standard lengths taken for total ones. */
export const lengthTypeMissing: RecordCheck = (record) => {
  const { maximum, captiveAdult, entry, weight } = record.size ?? {};
  const typed: readonly [pointer: string, figure: { readonly lengthType?: string } | undefined][] = [
    ['/size/maximum', maximum],
    ['/size/captiveAdult', captiveAdult],
    ['/size/entry', entry],
    ['/size/weight', weight],
    ['/growth/asymptoticLength', record.growth?.asymptoticLength],
  ];
  return typed.flatMap(([pointer, figure]): Suspicion[] => {
    if (figure === undefined || figure.lengthType !== undefined) return [];
    return [
      {
        problem: {
          code: 'length-type-missing',
          pointer,
          found: `${placeName(pointer)} does not say which length it is`,
          allowed: '"lengthType" must be given here',
          fix: 'Add "lengthType": "TL" for total, "SL" for standard, "FL" for fork length, "DM" for a diameter, "SH" for a shell.',
        },
      },
    ];
  });
};
