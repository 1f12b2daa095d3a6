import { fileURLToPath } from 'node:url';
import solid from 'vite-plugin-solid';
import { defineConfig } from 'vitest/config';
import { builtPage } from './src/hosting/builtPage.ts';
import { PAGE_HEADERS } from './src/hosting/contentPolicy.ts';

export default defineConfig({
  // compiled templates go through the page's own policy
  plugins: [solid({ solid: { moduleName: '/src/ui/trusted/solidWeb.ts' } }), builtPage()],
  base: './',
  publicDir: 'samples/kit',
  worker: { format: 'es' },
  // never called: see the file
  resolve: { alias: { 'codec-parser': fileURLToPath(new URL('src/files/flac/noParser.ts', import.meta.url)) } },
  build: {
    target: 'es2023',
    assetsInlineLimit: 0,
    modulePreload: false,
    // what the first screen needs is one file, not one and the scraps that later parts share with it
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: 'first', tags: ['$initial'] }] } } },
  },
  preview: { port: 4180, strictPort: false, headers: PAGE_HEADERS },
  test: {
    environment: 'node',
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**'],
    // a machine that is busy with something else makes no test fail
    testTimeout: 30_000,
    hookTimeout: 30_000,
  },
});
