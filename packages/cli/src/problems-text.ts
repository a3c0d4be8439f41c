import type { Problem } from '@commensal/schema';

/** Problems as text: place and code in one line, what was found, what is allowed, what to do below it. */
export function problemsText(problems: readonly Problem[]): string {
  return problems
    .map(({ file, line, column, code, found, allowed, fix }) => {
      const place = [file, line, column].filter((part) => part !== undefined).join(':');
      return [`${place === '' ? '' : `${place}  `}${code}`, `  ${sentence(found)} Allowed: ${sentence(allowed, false)}`, `  ${sentence(fix)}`].join('\n');
    })
    .join('\n\n')
    .concat('\n');
}

/** A clause as a sentence of its own. */
function sentence(clause: string, capital = true): string {
  const start = capital ? clause.charAt(0).toUpperCase() + clause.slice(1) : clause;
  return /[.?!]$/.test(start) ? start : `${start}.`;
}
