import { type RecordsCheck, SCHEMA_VERSION } from '@commensal/schema';
import { schemaOf, VERSION } from '../../versions.js';
import { type Checked, countsOf } from './checked.js';
import { helpOf, levelOf } from './codes.js';

/** What a check found, as the document `records-check`. */
export function checkJson({ records, problems }: Checked): string {
  const report: RecordsCheck = {
    $schema: schemaOf('records-check'),
    records,
    problems: problems.map(({ file = '', line, column, code, pointer, found, allowed, fix }) => ({
      file,
      ...(line === undefined || column === undefined ? {} : { line, column }),
      code,
      level: levelOf(code),
      pointer,
      found,
      allowed,
      fix,
      help: helpOf(code),
    })),
    summary: countsOf(problems),
    versions: { code: VERSION, schema: SCHEMA_VERSION },
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}
