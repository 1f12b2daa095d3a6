import solid from 'vite-plugin-solid';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  plugins: [solid()],
  base: './',
  publicDir: 'samples/kit',
  worker: { format: 'es' },
  build: {
    target: 'es2023',
    assetsInlineLimit: 0,
    modulePreload: false,
    // what the first screen needs is one file, not one and the scraps that later parts share with it
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: 'first', tags: ['$initial'] }] } } },
  },
  preview: { port: 4180, strictPort: false },
  test: {
    environment: 'node',
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**'],
    // a machine that is busy with something else makes no test fail
    testTimeout: 30_000,
  },
});
