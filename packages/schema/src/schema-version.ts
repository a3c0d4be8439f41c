import { SCHEMA_ROOT, SCHEMA_VERSION } from './generated/version.js';
import type { Problem } from './problem.js';
import { listWords } from './words.js';

/** Earlier versions of the species schema from which a migration leads here, oldest first. A test holds the list against the migrations. */
export const EARLIER_VERSIONS: readonly string[] = ['0.9'];

/** Major and minor number of a version of the schemas. */
export type VersionNumbers = readonly [major: number, minor: number];

/**
 * The address of a schema, which a document names in `$schema`.
 *
 * @example
 * schemaAddress('species', '1.0') // 'https://commensal.example/schema/1.0/species.schema.json'
 */
export const schemaAddress = (name: string, version: string = SCHEMA_VERSION): string => `${SCHEMA_ROOT}/${version}/${name}.schema.json`;

/**
 * The version that a document says it follows, undefined where it names no schema of that name of the project.
 *
 * @example
 * versionOf({ $schema: 'https://commensal.example/schema/1.3/species.schema.json' }, 'species') // '1.3'
 */
export function versionOf(document: unknown, name: string): string | undefined {
  const address = typeof document === 'object' && document !== null ? (document as Readonly<Record<string, unknown>>).$schema : undefined;
  if (typeof address !== 'string') return undefined;
  const version = address.slice(SCHEMA_ROOT.length + 1, -`/${name}.schema.json`.length);
  return /^(0|[1-9]\d{0,5})\.(0|[1-9]\d{0,5})$/.test(version) && address === schemaAddress(name, version) ? version : undefined;
}

/**
 * The numbers of a version as `versionOf` gives it.
 *
 * @example
 * versionNumbers('1.10') // [1, 10]
 */
export function versionNumbers(version: string): VersionNumbers {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return [major, minor];
}

/**
 * Whether a version is a later minor version of the one that this package knows: it may hold more properties, and
 * those that are known here mean what they mean here.
 *
 * @example
 * isLaterMinor('1.3') // true
 */
export function isLaterMinor(version: string): boolean {
  const [major, minor] = versionNumbers(version);
  const [ourMajor, ourMinor] = versionNumbers(SCHEMA_VERSION);
  return major === ourMajor && minor > ourMinor;
}

/**
 * The one problem of a document that follows another version of its schema: what else there is to say of it, only
 * that version can tell. Undefined where it follows this version, or none of the project.
 *
 * @example
 * otherVersionProblem({ $schema: 'https://commensal.example/schema/2.0/species.schema.json' }, 'species').code // 'later-schema'
 */
export function otherVersionProblem(document: unknown, name: string): Problem | undefined {
  const version = versionOf(document, name);
  if (version === undefined || version === SCHEMA_VERSION) return undefined;
  const [major, minor] = versionNumbers(version);
  const [ourMajor, ourMinor] = versionNumbers(SCHEMA_VERSION);
  const later = major > ourMajor || (major === ourMajor && minor > ourMinor);
  return {
    code: later ? 'later-schema' : 'earlier-schema',
    pointer: '/$schema',
    found: `the document follows schema ${version}`,
    allowed: `this version of commensal knows schema ${SCHEMA_VERSION}`,
    fix: later
      ? 'Upgrade commensal to a version that knows that schema.'
      : EARLIER_VERSIONS.includes(version)
        ? 'Bring it to this version with "commensal records migrate".'
        : `Correct "$schema": records can be brought here from schema ${listWords(EARLIER_VERSIONS)}.`,
  };
}
