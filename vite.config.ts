import solid from 'vite-plugin-solid';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  plugins: [solid()],
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
