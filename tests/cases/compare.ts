import type { Checked } from '@commensal/core';
import type { Datum, Finding } from '@commensal/schema';
import type { CaseText, Expected } from './read-cases.js';

/** In what a check differs from what is expected; nothing where it does not. A finding that is not listed is a difference. */
export function differences(
  { findings, summary }: Checked,
  rule: string,
  expected: Pick<CaseText, 'finds' | 'passed' | 'inapplicable'>,
): string[] {
  const left = [...findings];
  const apart = expected.finds.flatMap((wanted): string[] => {
    const at = left.findIndex(({ key }) => key === wanted.key);
    const [found] = at < 0 ? [] : left.splice(at, 1);
    return found === undefined ? [`missing: ${inWords(wanted)}`] : between(wanted, found);
  });
  const counts = summary.rules[rule];
  return [
    ...apart,
    ...left.map((finding) => `not listed: ${inWords(finding)}`),
    ...(['passed', 'inapplicable'] as const)
      .filter((outcome) => counts?.[outcome] !== expected[outcome])
      .map((outcome) => `${outcome}: ${counts?.[outcome]}, expected ${expected[outcome]}`),
  ];
}

/** A finding in one line. */
export const inWords = ({ outcome, level, message, key, when }: Pick<Finding, 'outcome' | 'level' | 'message' | 'key' | 'when'>): string =>
  [outcome, level, message, key, ...(when === null ? [] : [when])].join(' ');

function between(wanted: Expected, found: Finding): string[] {
  const parts = (['outcome', 'level', 'message', 'when'] as const).map((name) => [name, found[name], wanted[name]] as const);
  const data = Object.entries(wanted.data ?? {}).map(([name, value]) => [name, datumInWords(found.data[name]), value] as const);
  return [...parts, ...data]
    .filter(([, is, was]) => is !== was)
    .map(([name, is, was]) => `${wanted.key}: ${name} is ${is}, expected ${was}`);
}

/** A figure of a finding as case files write it. */
function datumInWords(datum: Datum | undefined): string | undefined {
  if (datum === undefined) return undefined;
  if (datum.value !== undefined)
    return datum.unit === undefined || datum.unit === '1' ? String(datum.value) : `${datum.value} ${datum.unit}`;
  return datum.date ?? datum.animal ?? datum.species ?? datum.keys?.join(' ');
}
