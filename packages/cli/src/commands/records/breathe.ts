import { setImmediate } from 'node:timers/promises';

const EVERY_MS = 50;

/** Lets the process look up from its work now and then: without that Ctrl-C waits until all files are done. */
export function breather(): () => Promise<void> | undefined {
  let last = Date.now();
  return () => {
    if (Date.now() - last < EVERY_MS) return undefined;
    return setImmediate().then(() => {
      last = Date.now();
    });
  };
}
