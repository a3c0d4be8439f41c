import type { SetProblem } from '../../packages/core/src/plan/best-set/index.js';

/** A set that holds all constraints, and its value. */
export interface Held {
  readonly options: readonly number[];
  readonly value: number;
}

/** All sets that hold all constraints, by trying every one of the 2^n; greatest value first. */
export function setsByForce({ values, groups, conflicts, limits, musts }: SetProblem): Held[] {
  const held: Held[] = [];
  for (let mask = 0; mask < 2 ** values.length; mask += 1) {
    const has = (option: number): boolean => ((mask >>> option) & 1) === 1;
    const options = values.map((_, option) => option).filter(has);
    const sum = (numbers: readonly number[]): number => options.reduce((total, option) => total + (numbers[option] ?? 0), 0);
    const holds =
      groups.every((group) => new Set(group.filter(has)).size <= 1) &&
      conflicts.every(([one, other]) => !(has(one) && has(other))) &&
      limits.every(({ uses, most, only }) => (only !== undefined && !has(only)) || sum(uses) <= most) &&
      musts.every((row) => row.some(has));
    if (holds) held.push({ options, value: sum(values) });
  }
  return held.sort((one, other) => other.value - one.value);
}
