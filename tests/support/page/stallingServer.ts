/** The page's server, with files that don't arrive for as long as a test wants. */
import { createServer, type IncomingMessage, request, type ServerResponse } from 'node:http';

export interface StallingServer {
  url: string;
  /** whatever holds these letters in its path doesn't arrive; null: all does, from now on and what was asked for before */
  stall(part: string | null): void;
  close(): void;
}

/** @param to address of the server that answers */
export async function stallingServer(to: string): Promise<StallingServer> {
  let stalled: string | null = null;
  let waiting: (() => void)[] = [];
  const pass = (asked: IncomingMessage, answer: ServerResponse): void => {
    const { host: _, ...headers } = asked.headers;
    const passed = request(new URL(asked.url ?? '/', to), { method: asked.method, headers }, (got) => {
      answer.writeHead(got.statusCode ?? 502, got.headers);
      got.pipe(answer);
    });
    passed.on('error', () => answer.destroy());
    passed.end();
  };
  const server = createServer((asked, answer) => {
    if (stalled !== null && asked.url?.includes(stalled)) waiting.push(() => pass(asked, answer));
    else pass(asked, answer);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the server has no port');
  return {
    url: `http://127.0.0.1:${address.port}/`,
    stall(part) {
      stalled = part;
      if (part !== null) return;
      for (const go of waiting) go();
      waiting = [];
    },
    close() {
      server.closeAllConnections();
      server.close();
    },
  };
}
