/** Builds the page unless CROSSHEAD_PAGE names a built one, and serves it on a free local port for the whole run. */
import { fileURLToPath } from 'node:url';
import { build, preview } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    pageUrl: string;
  }
}

const root = fileURLToPath(new URL('../../..', import.meta.url));

export interface ServedPage {
  url: string;
  close(): Promise<void>;
}

/** What a server sends that doesn't isolate the page. */
const NOT_ISOLATED = {
  'Cross-Origin-Opener-Policy': 'unsafe-none',
  'Cross-Origin-Embedder-Policy': 'unsafe-none',
};

/**
 * Serves as `npm start` does, from a folder of its own so that a running `npm start` keeps its files.
 * @param isolated false: as a server that doesn't send the headers that share memory with the audio thread
 */
export async function servePage(isolated = true): Promise<ServedPage> {
  // an empty one is none: it would name the checkout, which the build empties
  const outDir = process.env.CROSSHEAD_PAGE || '.cache/page';
  if (!process.env.CROSSHEAD_PAGE) await build({ root, logLevel: 'warn', build: { outDir, emptyOutDir: true } });
  const server = await preview({
    root,
    logLevel: 'warn',
    build: { outDir },
    preview: {
      host: '127.0.0.1',
      port: 0,
      strictPort: true,
      open: false,
      ...(isolated ? {} : { headers: NOT_ISOLATED }),
    },
  });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('the page server has no port');
  return { url: `http://127.0.0.1:${address.port}/`, close: () => server.close() };
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const served = await servePage();
  project.provide('pageUrl', served.url);
  return () => served.close();
}
