/** Fewer files than these are done before anybody looks. */
const MANY = 500;
const EVERY_MS = 100;

/** Where work stands, in one line of standard error; nothing where that is no terminal or there is little to do. */
export function progressOf(what: string, all: number): { readonly at: (done: number) => void; readonly end: () => void } {
  const shown = process.stderr.isTTY && all >= MANY;
  let last = 0;
  return {
    at: (done) => {
      if (!shown || Date.now() - last < EVERY_MS) return;
      last = Date.now();
      const width = 24;
      const full = Math.floor((done / all) * width);
      process.stderr.write(`\r${what} [${'='.repeat(full)}${' '.repeat(width - full)}] ${done} of ${all}`);
    },
    // Clears the line.
    end: () => {
      if (shown && last > 0) process.stderr.write('\r\x1b[K');
    },
  };
}
