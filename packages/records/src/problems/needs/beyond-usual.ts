import type { Quantity } from '@commensal/core';
import { placeName, type SpeciesRecord } from '@commensal/schema';
import { figureOf, shown, totalCm } from '../figures.js';
import type { RecordCheck, Suspicion } from '../suspicion.js';

interface Usual {
  readonly pointer: string;
  readonly of: (record: SpeciesRecord) => Quantity | undefined;
  readonly unit: string;
  readonly unitWords: string;
  readonly least: number;
  readonly most: number;
  readonly hint: string;
}

/** Bounds of our choice, several times beyond anything in the sample: what lies outside is a slip of unit or decimal point. */
const USUAL: readonly Usual[] = [
  {
    pointer: '/feeding/dailyFeed',
    of: ({ feeding }) => feeding?.dailyFeed,
    unit: '1',
    unitWords: '',
    // The sample has 0.01 to 0.05.
    least: 0.002,
    most: 0.2,
    hint: 'Three per cent of the body weight are 0.03.',
  },
  {
    pointer: '/needs/sandDepth',
    of: ({ needs }) => needs?.sandDepth,
    unit: 'cm',
    unitWords: ' cm',
    // The sample has 3 to 12.
    least: 0.5,
    most: 40,
    hint: 'Look at the unit: millimetres are "mm".',
  },
  {
    pointer: '/needs/tankAge',
    of: ({ needs }) => needs?.tankAge,
    unit: 'd',
    unitWords: ' d',
    least: 14,
    most: 1500,
    hint: 'Look at the unit: days are "d", years "a".',
  },
  {
    pointer: '/lifeCycle/longevity',
    of: ({ lifeCycle }) => lifeCycle?.longevity,
    unit: 'a',
    unitWords: ' a',
    // Pygmy gobies live for weeks, some anemones for longer than people.
    least: 0.1,
    most: 150,
    hint: 'Look at the unit: days are "d", years "a".',
  },
];

/**
 * Litres of rock an adult holds over the square of its length in cm: a claim grows with the square. The most in the sample is 0.16, of
 * Pictichromis paccagnellae.
 */
const MOST_ROCK = 0.8;

/** `beyond-usual`: a figure many times larger or smaller than any animal has. */
export const beyondUsual: RecordCheck = (record, { standIns }) => {
  const told = USUAL.flatMap(({ pointer, of, unit, unitWords, least, most, hint }): Suspicion[] => {
    const figure = figureOf(of(record), unit);
    if (figure === undefined || (figure.centre >= least && figure.centre <= most)) return [];
    return [
      {
        problem: {
          code: 'beyond-usual',
          pointer,
          found: `${placeName(pointer)} is ${shown(figure.centre)}${unitWords}`,
          allowed: `from ${least} to ${most}${unitWords} has been heard of`,
          fix: hint,
        },
      },
    ];
  });
  const claim = figureOf(record.conduct?.rockClaim, 'L')?.centre;
  const adult = totalCm(record.size?.captiveAdult, record, standIns)?.high;
  if (claim === undefined || adult === undefined || claim <= MOST_ROCK * adult * adult) return told;
  return [
    ...told,
    {
      problem: {
        code: 'beyond-usual',
        pointer: '/conduct/rockClaim',
        found: `conduct.rockClaim is ${shown(claim)} L for an adult of ${shown(adult)} cm`,
        allowed: `animals of that length hold at most ${shown(MOST_ROCK * adult * adult)} L of rock`,
        fix: 'Look at the decimal point and the unit: it is the rock that one adult holds, not the tank it wants.',
      },
      reads: ['/size/captiveAdult'],
    },
  ];
};
