import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

// One browser at a time: audio threads that share two cores would starve each other.
export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    environment: 'node',
    include: ['tests/browser/**/*.test.ts'],
    globalSetup: ['tests/support/page/servePage.ts'],
    fileParallelism: false,
    maxWorkers: 1,
    testTimeout: 120_000,
    hookTimeout: 60_000,
  },
});
