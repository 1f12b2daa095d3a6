/**
 * Keeps everything that was built, so that the page starts and measures without a network, and gives the page its files
 * from there. A page that is open keeps the version it began with: a newer one waits until no page of the older is left,
 * or until the only one is reloaded.
 */
import { PrecacheController } from 'workbox-precaching/PrecacheController.js';

declare const self: ServiceWorkerGlobalScope & {
  /** written in by the build: address, revision and checksum of each file */
  __WB_MANIFEST: { url: string; revision: string | null; integrity: string }[];
};

/** what the older version tells the one that waits */
const START = 'start';

/** an empty icon: the browser would ask the server for one of its own choice, and leave at once while it comes */
const ASK_AGAIN = '<!doctype html><title>Crosshead</title><link rel="icon" href="data:,">';

const kept = new PrecacheController();
kept.precache(self.__WB_MANIFEST);

const home = new URL('./', self.registration.scope);
/** told to start; the next answer is its own, as soon as it has */
let told: ServiceWorker | null = null;

// a first visit needs no reload to be kept, and an update has no other page
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));

self.addEventListener('message', (event) => {
  if (event.data === START) event.waitUntil(self.skipWaiting());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET') return;
  const cacheKey = kept.getCacheKeyForURL(isHome(request) ? new URL('index.html', home).href : request.url);
  if (cacheKey === undefined) return;
  event.respondWith(request.mode === 'navigate' ? pageOf(event, cacheKey) : fileOf(event, cacheKey));
});

function isHome({ mode, url }: Request): boolean {
  const { origin, pathname } = new URL(url);
  return mode === 'navigate' && origin === home.origin && pathname === home.pathname;
}

function fileOf(event: FetchEvent, cacheKey: string): Promise<Response> {
  return kept.strategy.handle({ event, request: event.request, params: { cacheKey } });
}

/** The only page is asked for anew, and a newer version waits: that one is to answer. */
async function pageOf(event: FetchEvent, cacheKey: string): Promise<Response> {
  const { waiting } = self.registration;
  if (waiting && (isReload(event.request) || waiting === told) && (await openPages()) < 2) {
    if (waiting !== told) waiting.postMessage(START);
    told = waiting;
    return askAgain();
  }
  return fileOf(event, cacheKey);
}

/**
 * An empty page that asks again: a version can't change while the older one still owes an answer. After a second, not at once: asked
 * without a pause the older one was never idle on a busy computer, and the newer never began.
 */
const askAgain = (): Response => new Response(ASK_AGAIN, { headers: { Refresh: '1', 'Content-Type': 'text/html' } });

/** Not told by every browser: then the newer version waits until all pages are closed. */
function isReload(request: Request & { isReloadNavigation?: boolean }): boolean {
  return request.isReloadNavigation === true;
}

/** Those that are about to be reloaded count; those that are about to open don't. */
async function openPages(): Promise<number> {
  const all = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  return all.filter(({ url }) => url.startsWith(home.href)).length;
}
