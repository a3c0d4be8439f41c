import { childPointer, eachObject, placeName } from '@commensal/schema';
import type { RecordCheck, Suspicion } from '../suspicion.js';

/** Types that need a tail fin, and those of animals without one. */
const OF_FISHES = ['SL', 'FL'];
const OF_OTHERS = ['DM', 'SH'];

/** `length-type-of-form`: a diameter of a fish, a standard length of a snail. */
export const lengthTypeOfForm: RecordCheck = (record) => {
  const wrong = record.form === 'fish' ? OF_OTHERS : OF_FISHES;
  const told: Suspicion[] = [];
  eachObject(record, (object, pointer) => {
    for (const name of ['lengthType', 'per']) {
      const type = object[name];
      if (typeof type !== 'string' || !wrong.includes(type)) continue;
      const place = childPointer(pointer, name);
      told.push({
        problem: {
          code: 'length-type-of-form',
          pointer: place,
          found: `${placeName(place)} is "${type}" in a record of the form "${record.form}"`,
          allowed:
            record.form === 'fish'
              ? 'fishes have TL, SL or FL; DM and SH are for animals without a tail fin'
              : 'animals without a tail fin have TL, DM or SH; SL and FL are for fishes',
          fix: 'Give the type that was measured; look whether the form is right.',
        },
        reads: [pointer],
      });
    }
  });
  return told;
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
