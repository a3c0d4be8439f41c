import type { SetProblem } from '../../packages/core/src/plan/best-set/index.js';

/** A problem as a mixed integer program in the LP format; a limit on condition stands with a large number that lifts it (big M). */
export function milpText({ values, groups, conflicts, limits, musts }: SetProblem): string {
  const term = (factor: number, option: number): string => `+ ${factor} x${option}`;
  const sum = (options: readonly number[]): string => options.map((option) => term(1, option)).join(' ');
  const rows = [
    ...groups.filter((group) => group.length > 1).map((group) => `${sum([...new Set(group)])} <= 1`),
    ...conflicts.map((pair) => `${sum(pair)} <= 1`),
    ...musts.map((row) => `${sum([...new Set(row)])} >= 1`),
    ...limits.map(({ uses, most, only }) => {
      const used = uses.map((use, option) => ({ use, option })).filter(({ use, option }) => use > 0 || option === only);
      if (only === undefined) return `${used.map(({ use, option }) => term(use, option)).join(' ')} <= ${most}`;
      const lift = uses.reduce((total, use) => total + use, 0);
      return `${used.map(({ use, option }) => term(option === only ? use + lift : use, option)).join(' ')} <= ${most + lift}`;
    }),
  ];
  return [
    'Maximize',
    ` worth: ${values.map(term).join(' ')}`,
    'Subject To',
    ...rows.map((row, at) => ` row${at}: ${row}`),
    'Binaries',
    ` ${values.map((_, option) => `x${option}`).join(' ')}`,
    'End',
  ].join('\n');
}
