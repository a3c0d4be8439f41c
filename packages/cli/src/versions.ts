import type { Library } from '@commensal/core';
import { SCHEMA_VERSION, type Versions } from '@commensal/schema';
import manifest from '../package.json' with { type: 'json' };

/** Version of the command line, which is that of all packages. */
export const VERSION: string = manifest.version;

export const versionsOf = (library: Library): Versions => ({ code: VERSION, schema: SCHEMA_VERSION, data: library.release ?? 'none' });

/** The `$schema` of a result. */
export const schemaOf = <Name extends string>(name: Name): `https://commensal.example/schema/1.0/${Name}.schema.json` =>
  `https://commensal.example/schema/1.0/${name}.schema.json`;
