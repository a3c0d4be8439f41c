import { createHash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';

/** SHA-256 of a text, in hexadecimal digits. */
export const sha256 = (text: string): string => createHash('sha256').update(text).digest('hex');

/** SHA-256 of a file of any size, in hexadecimal digits. */
export function fileHash(file: string): string {
  const hash = createHash('sha256');
  const buffer = Buffer.alloc(1 << 20);
  const descriptor = openSync(file, 'r');
  try {
    for (let read = readSync(descriptor, buffer); read > 0; read = readSync(descriptor, buffer)) hash.update(buffer.subarray(0, read));
  } finally {
    closeSync(descriptor);
  }
  return hash.digest('hex');
}
