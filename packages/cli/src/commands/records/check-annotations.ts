import type { Problem } from '@commensal/schema';
import { STANDARD_INPUT } from '../../read-document.js';
import { type Checked, summaryOf } from './checked.js';
import { onOneLine } from './check-text.js';
import { helpOf, levelOf } from './codes.js';
import { slashed } from './slashed.js';

/** What would end a message, and the sign that escapes. */
const inMessage = (text: string): string => text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');

/** Within a property a colon and a comma end it as well. */
const inProperty = (text: string): string => inMessage(text).replaceAll(':', '%3A').replaceAll(',', '%2C');

/**
 * What a check found, as workflow commands of GitHub Actions (`::error file=...,line=...,col=...,title=...::message`), which a pull
 * request shows beside the lines. Commands and escapes are those of "Workflow commands for GitHub Actions" in the documentation of
 * GitHub.
 */
export function checkAnnotations(checked: Checked): string {
  return `${[...checked.problems.map(annotationOf), onOneLine(summaryOf(checked))].join('\n')}\n`;
}

function annotationOf({ file, line, column, code, found, allowed, fix }: Problem): string {
  const properties = {
    file: file === undefined || file === STANDARD_INPUT ? undefined : slashed(file),
    line,
    col: column,
    title: code,
  };
  const written = Object.entries(properties)
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => `${name}=${inProperty(String(value))}`);
  return `::${levelOf(code)} ${written.join(',')}::${inMessage(`${found}; ${allowed}. ${fix}\n${helpOf(code)}`)}`;
}
