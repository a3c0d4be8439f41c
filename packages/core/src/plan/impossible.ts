import type { Impossible } from '@commensal/schema';
import { arrange } from './arrange.js';
import type { Field } from './field.js';
import type { Line, Pick } from './line.js';
import { minimalConflict } from './minimal-conflict.js';
import { selectBest } from './select.js';

/** Part of the work of the plan that each question takes at most. */
const SHARE_OF_WORK = 0.05;

/** The smallest part of the wishes that have to be in which cannot be together, and what stands in its way. */
export function impossibleIn(field: Field, mostWork: number): Impossible {
  const { ground, options } = field;
  const musts = ground.lines.filter(({ wish }) => wish.must);
  let allProven = true;
  const canBe = (lines: readonly Line[]): boolean => {
    const rows = lines.map((line) => options.flatMap((option, number) => (option.line === line ? [number] : [])));
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
      { mostWork: ground.spent.work + mostWork * SHARE_OF_WORK, ranked: false },
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
