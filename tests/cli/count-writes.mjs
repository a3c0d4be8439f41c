/** Loaded before the command line: writes what goes to standard output to the file named by COMMENSAL_WRITES instead, a line of JSON for each write. */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

const { appendFileSync, writeSync } = fs;
fs.writeSync = (descriptor, bytes, from = 0) => {
  if (descriptor !== 1) return writeSync(descriptor, bytes, from);
  appendFileSync(process.env.COMMENSAL_WRITES, `${JSON.stringify(bytes.subarray(from).toString())}\n`);
  return bytes.length - from;
};
syncBuiltinESMExports();
