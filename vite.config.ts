import solid from 'vite-plugin-solid';
import { defineConfig } from 'vitest/config';
import { trimPlots } from './trimPlots.ts';

export default defineConfig({
  plugins: [solid(), trimPlots()],
  base: './',
  publicDir: 'samples/kit',
  worker: { format: 'es' },
  build: { target: 'es2023', assetsInlineLimit: 0, modulePreload: false },
  preview: { port: 4180, strictPort: false },
  test: {
    environment: 'node',
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**'],
  },
});
