import type { Problem } from '@commensal/schema';

/** Problems as text: place and code in one line, what was found and what is allowed below it, then what to do. */
export function problemsText(problems: readonly Problem[]): string {
  return problems
    .map(({ file, line, column, code, found, allowed, fix }) => {
      const place = [file, line, column].filter((part) => part !== undefined).join(':');
      return [`${place === '' ? '' : `${place}  `}${code}`, `  ${found}; ${allowed}.`, `  ${fix}`].join('\n');
    })
    .join('\n\n')
    .concat('\n');
}
