/** Loaded before the command line: after so many bytes as COMMENSAL_SPACE says, files cannot be written, as on a full disk. */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

const { writeSync } = fs;
let left = Number(process.env.COMMENSAL_SPACE);
fs.writeSync = (descriptor, bytes, ...more) => {
  if (descriptor < 3) return writeSync(descriptor, bytes, ...more);
  const [from = 0] = more;
  left -= bytes.length - from;
  if (left < 0) throw Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' });
  return writeSync(descriptor, bytes, ...more);
};
syncBuiltinESMExports();
