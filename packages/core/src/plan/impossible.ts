import type { Impossible } from '@commensal/schema';
import { arrange } from './arrange.js';
import { type Field, numbersIn } from './field.js';
import type { Line, Pick } from './line.js';
import { minimalConflict } from './minimal-conflict.js';
import { selectBest, withAShareOf } from './select.js';

/** The smallest part of the wishes that have to be in which cannot be together, and what stands in its way. */
export function impossibleIn(field: Field, mostWork: number): Impossible {
  const { ground, options } = field;
  const musts = ground.lines.filter(({ wish }) => wish.must);
  let allProven = true;
  const canBe = (lines: readonly Line[]): boolean => {
    const rows = lines.map((line) => numbersIn(options, line));
    if (rows.some((row) => row.length === 0)) return false;
    const only = rows.flat();
    const { arrangement, proven } = selectBest(
      {
        ...field,
        problem: {
          ...field.problem,
          values: options.map(() => 0),
          musts: rows,
          limits: [...field.problem.limits, noneBut(options.length, only)],
        },
      },
      { mostWork: withAShareOf(mostWork, ground), ranked: false },
    );
    if (arrangement === undefined && !proven) allProven = false;
    return arrangement !== undefined;
  };
  const lines = minimalConflict(musts, canBe) ?? musts;
  const picks = lines.map((line): Pick => ({ line, count: line.wish.least }));
  return {
    species: lines.map(({ wish }) => wish.kind.id) as [string, ...string[]],
    because: [...arrange(ground, picks).excluding],
    minimal: allProven,
  };
}

/** Nothing else need come in. */
function noneBut(count: number, only: readonly number[]): { uses: number[]; most: number } {
  const uses = Array.from({ length: count }, () => 1);
  for (const number of only) uses[number] = 0;
  return { uses, most: 0 };
}
