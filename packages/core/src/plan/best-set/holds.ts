import type { SetProblem } from './problem.js';

/** Sum of the values in the order of the options, so that one set has one value. */
export const worthOf = ({ values }: SetProblem, options: readonly number[]): number =>
  options.reduce((sum, option) => sum + (values[option] ?? 0), 0);

/** Whether sorted options pass no limit. Uses are summed in the order of the options. */
export function keepsLimits({ limits }: SetProblem, options: readonly number[]): boolean {
  return limits.every(({ uses, most, only }) => {
    if (only !== undefined && !options.includes(only)) return true;
    return options.reduce((sum, option) => sum + (uses[option] ?? 0), 0) <= most;
  });
}

/** Whether every row has one of the options. */
export const meetsMusts = ({ musts }: SetProblem, options: readonly number[]): boolean =>
  musts.every((row) => row.some((option) => options.includes(option)));
