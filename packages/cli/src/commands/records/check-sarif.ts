import { createHash } from 'node:crypto';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Problem } from '@commensal/schema';
import { STANDARD_INPUT } from '../../read-document.js';
import { VERSION } from '../../versions.js';
import type { Checked } from './checked.js';
import { CODES, helpOf, levelOf } from './codes.js';
import { slashed } from './slashed.js';

const SCHEMA = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json';

/** The name that SARIF gives to the root of the sources; whoever reads the file knows where that is. */
const ROOT = 'SRCROOT';

/**
 * What a check found, as SARIF 2.1.0 (OASIS Standard), which code hosts and editors read. Files are named from the folder the command
 * ran in, which should be the root of the repository.
 */
export function checkSarif({ problems }: Checked): string {
  const codes = [...new Set([...CODES.keys(), ...problems.map(({ code }) => code)])];
  const indexOf = new Map(codes.map((code, index) => [code, index]));
  const printed = fingerprints();
  const log = {
    $schema: SCHEMA,
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'commensal',
            semanticVersion: VERSION,
            informationUri: 'https://commensal.example/docs/checking-records',
            rules: codes.map(ruleOf),
          },
        },
        automationDetails: { id: 'commensal-records/' },
        originalUriBaseIds: { [ROOT]: { description: { text: 'The folder in which commensal was run.' } } },
        columnKind: 'utf16CodeUnits',
        results: problems.map((problem) => ({
          ruleId: problem.code,
          ruleIndex: indexOf.get(problem.code),
          level: levelOf(problem.code),
          message: { text: `${problem.found}; ${problem.allowed}. ${problem.fix}` },
          locations: [locationOf(problem)],
          partialFingerprints: { 'commensalProblem/v1': printed(problem) },
        })),
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}

function ruleOf(code: string): object {
  const known = CODES.get(code);
  const more = known === undefined ? {} : { shortDescription: { text: known.says }, help: { text: `${known.matters} ${known.repair}` } };
  return { id: code, ...more, helpUri: helpOf(code), defaultConfiguration: { level: levelOf(code) } };
}

function locationOf({ file = '', line, column, pointer }: Problem): object {
  const region = line === undefined || column === undefined ? {} : { region: { startLine: line, startColumn: column } };
  const place = pointer === '' ? {} : { logicalLocations: [{ fullyQualifiedName: pointer, kind: 'member' }] };
  return { physicalLocation: { artifactLocation: artifactOf(file), ...region }, ...place };
}

function artifactOf(file: string): object {
  if (file === STANDARD_INPUT) return { description: { text: 'Standard input.' } };
  const name = slashed(file);
  // What does not lie below the root has no name from there.
  if (name.startsWith('../') || path.isAbsolute(name)) return { uri: pathToFileURL(file).href };
  return { uri: name.split('/').map(encodeURIComponent).join('/'), uriBaseId: ROOT };
}

/** What stays the same from run to run while lines move: file, code, place in the record and what was found; a number for the next that is like it. */
function fingerprints(): (problem: Problem) => string {
  const seen = new Map<string, number>();
  return ({ file = '', code, pointer, found }) => {
    const hash = createHash('sha256')
      .update(JSON.stringify([slashed(file), code, pointer, found]))
      .digest('hex')
      .slice(0, 32);
    const count = (seen.get(hash) ?? 0) + 1;
    seen.set(hash, count);
    return `${hash}:${count}`;
  };
}
