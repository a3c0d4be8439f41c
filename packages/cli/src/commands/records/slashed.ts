import path from 'node:path';

/** The name of a file from here, with slashes on every system, as programs of others want it. */
export const slashed = (file: string): string => path.relative('', file).split(path.sep).join('/');
