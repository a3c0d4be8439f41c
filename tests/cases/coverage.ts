import type { Checked } from '@commensal/core';

/** What a rule comes to in its cases. */
export type Reached = ReadonlySet<string>;

const LEVELS = ['error', 'warning', 'note'];

/** Every outcome there is, at every level. */
export const OUTCOMES: readonly string[] = [
  'passed',
  'inapplicable',
  ...['failed', 'cantTell'].flatMap((outcome) => LEVELS.map((level) => `${outcome} ${level}`)),
];

/** Outcomes and messages that a check comes to by one rule. */
export function reachedBy({ findings, summary }: Checked, rule: string): string[] {
  const counts = summary.rules[rule];
  return [
    ...(['passed', 'inapplicable'] as const).filter((outcome) => (counts?.[outcome] ?? 0) > 0),
    ...findings.filter((finding) => finding.rule === rule).flatMap(({ outcome, level, message }) => [`${outcome} ${level}`, message]),
  ];
}

/** Of all outcomes and of a rule's messages, what neither comes up nor is said never to; and what is said never to and does, or is no such thing. */
export function gapsIn(reached: Reached, messages: readonly string[], never: Readonly<Record<string, string>>): string[] {
  const all = [...OUTCOMES, ...messages];
  return [
    ...all.filter((one) => !reached.has(one) && never[one] === undefined).map((one) => `no case comes to "${one}"`),
    ...[...reached].filter((one) => !all.includes(one)).map((one) => `"${one}" comes up and has no sentence`),
    ...Object.entries(never).flatMap(([one, reason]) => [
      ...(all.includes(one) ? [] : [`"${one}", said never to come up, is no outcome or message`]),
      ...(reached.has(one) ? [`"${one}", said never to come up, does`] : []),
      ...(reason.trim().length < 10 ? [`"${one}" is said never to come up without a reason`] : []),
    ]),
  ];
}
