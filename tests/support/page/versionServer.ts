/** A server of the built page that goes away and comes back, gives another version, and notes what is asked of it. */
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { PAGE_HEADERS } from '../../../src/hosting/contentPolicy';

const root = fileURLToPath(new URL('../../..', import.meta.url));

export const BUILT = join(root, process.env.CROSSHEAD_PAGE ?? '.cache/page');
/** in the title and, once it is fetched, on the page of the hits of the newer version */
export const NEWER = 'Newer';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.wav': 'audio/wav',
};

export interface VersionServer {
  url: string;
  /** paths that were asked for while it was there, in order */
  asked: string[];
  /** serves this folder from now on; null: cuts every connection */
  serve(dir: string | null): void;
  /** paths that are answered with another text, as by something between here and the browser */
  swapped: Map<string, string>;
  close(): Promise<void>;
}

export async function versionServer(first: string): Promise<VersionServer> {
  let dir: string | null = first;
  const asked: string[] = [];
  const swapped = new Map<string, string>();
  const server = createServer((request, response) => {
    if (dir === null) return void request.socket.destroy();
    const path = new URL(request.url ?? '/', 'http://localhost').pathname.slice(1) || 'index.html';
    asked.push(path);
    for (const [name, value] of Object.entries(PAGE_HEADERS)) response.setHeader(name, value);
    try {
      const bytes = swapped.get(path) ?? readFileSync(join(dir, path));
      response.setHeader('content-type', TYPES[extname(path)] ?? 'application/octet-stream').end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}/`,
    asked,
    swapped,
    serve(next) {
      dir = next;
      if (dir === null) server.closeAllConnections();
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

/** Builds a newer version as any other is built: its title, and the part that shows the hits, are others. @returns its folder */
export async function buildNewer(): Promise<string> {
  const outDir = join(root, '.cache/newer');
  // as `npm run build` does, not as the test program
  process.env.NODE_ENV = 'production';
  await build({
    root,
    logLevel: 'warn',
    build: { outDir, emptyOutDir: true },
    plugins: [
      {
        name: 'newer',
        transformIndexHtml: (html) => html.replace('<title>', `<title>${NEWER} `),
        transform: (code, id) =>
          id.endsWith('/ui/why/Why.tsx') ? `${code}\ndocument.documentElement.dataset.why = '${NEWER}';` : null,
      },
    ],
  });
  return outDir;
}
