import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = path.dirname(fileURLToPath(import.meta.url));
const at = (place: string): string => path.join(root, 'packages', place);

const slow = Number(process.env.COMMENSAL_RUNS ?? 1000) > 1000;

export default defineConfig({
  resolve: {
    // Tests see the sources, not the build: a failing line is the line that was written. Data files need no alias.
    alias: [
      { find: /^@commensal\/schema\/validate\/([\w-]+)$/, replacement: at('schema/src/generated/$1-validator.js') },
      { find: /^@commensal\/report\/([\w-]+)$/, replacement: at('report/src/$1.ts') },
      { find: /^@commensal\/(core|schema|report|records|species-sample)$/, replacement: at('$1/src/index.ts') },
    ],
  },
  test: {
    include: ['packages/*/src/**/*.test.ts', 'packages/*/tests/**/*.test.ts', 'tests/**/*.test.ts'],
    setupFiles: [path.join(root, 'tests/support/seed.ts')],
    pool: 'threads',
    maxWorkers: 2,
    // A limit against tests that never end, not one on speed: two cores shared with other work are slow.
    testTimeout: slow ? 7_200_000 : 240_000,
    hookTimeout: 120_000,
  },
});
