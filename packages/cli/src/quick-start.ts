import { setFlagsFromString } from 'node:v8';

/** Major versions of V8 that have the flags: those of Node 20, 22 and 24. Another would complain of them. */
const KNOWN = ['11', '12', '13'];

/**
 * A plan is one short burst of work, most of it in code that the engine has not compiled yet: have it compile plainly at once, and keep what it
 * optimises small. What has been loaded already stays as it is, and no result hangs on it.
 */
export function compileAtOnce(): void {
  const [major = ''] = process.versions.v8.split('.');
  if (!KNOWN.includes(major)) return;
  setFlagsFromString('--always-sparkplug');
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=400');
}
