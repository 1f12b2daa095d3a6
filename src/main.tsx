/** Puts the page together: audio door, settings, meter, screen, and what of the page is fetched later. */
import { render } from 'solid-js/web';
import { browserAudio } from './audio/browserAudio';
import pairWorkerUrl from './audio/take/pairWorker?worker&url';
import takeWorkerUrl from './audio/take/takeWorker?worker&url';
import { WINDOW_PARAMETER } from './state/callOut/messages';
import { createMeter } from './state/meter/meter';
import { browserKeeper } from './state/settings/keeper';
import { createSettings } from './state/settings/settings';
import { kitLeftOpen } from './state/shelf/leftOpen';
import { App } from './ui/App';
import { createPart } from './ui/parts/part';
import { withStyles } from './ui/parts/withStyles';
import type { Parts } from './ui/shared/appScope';
import { policy } from './ui/trusted/policy';
import './ui/shared/base.css';
import './ui/meter/answer.css';
import './ui/meter/numbers.css';
import './ui/plots/plots.css';
import './ui/meter/controls.css';
import './ui/meter/drums.css';
import './ui/meter/sheet.css';
import './ui/shared/small.css';
import './ui/sources/sources.css';
import './ui/shared/forced.css';

const root = document.getElementById('app');
// the big display in a window of its own is this page, with another address
const bigDisplayOf = new URLSearchParams(location.search).get(WINDOW_PARAMETER);
if (root) {
  if (bigDisplayOf === null) openPage(root);
  else openBigDisplay(root, bigDisplayOf);
}

function openBigDisplay(root: HTMLElement, meter: string): void {
  withStyles(() => import('./ui/callOut/CallOutWindow'))().then(
    ({ CallOutWindow }) => {
      render(() => <CallOutWindow meter={meter} settings={createSettings(browserKeeper())} />, root);
    },
    () => {
      root.textContent =
        'The big display could not be loaded from this page’s server; check that the server is running, then reload this window.';
    },
  );
}

function openPage(root: HTMLElement): void {
  const keeper = browserKeeper();
  const settings = createSettings(keeper);
  const meter = createMeter({
    door: browserAudio,
    settings,
    schedule: (paint) => void requestAnimationFrame(paint),
    nowMs: () => performance.now(),
  });
  const exampleText = async (): Promise<string> => {
    const response = await fetch('./example-kit.json');
    if (!response.ok) throw new Error(response.statusText);
    return response.text();
  };
  const parts: Parts = {
    kit: createPart(
      'The kit sheet',
      withStyles(() => import('./ui/kit/openKit')),
      ({ openKit }) => openKit({ meter, settings, keeper, exampleText }),
    ),
    meter: createPart(
      'The meter',
      withStyles(() => import('./ui/meter/MeterPage')),
    ),
    handOver: createPart(
      'The hand-over',
      withStyles(() => import('./ui/print/HandOverPage')),
    ),
    live: createPart(
      'The page for live inputs',
      withStyles(() => import('./ui/live/LivePages')),
    ),
    recording: createPart(
      'The page for recordings',
      withStyles(() => import('./ui/recording/Recording')),
    ),
    take: createPart(
      'The page for takes',
      withStyles(async () => {
        const [page, all, pair] = await Promise.all([
          import('./ui/take/openTake'),
          import('./audio/take/readTakeFiles'),
          import('./audio/take/cutPair'),
        ]);
        return { ...page, ...all, ...pair };
      }),
      ({ openTake, readTakeFiles, cutPair }) =>
        openTake({
          readFiles: (...take) => readTakeFiles(() => openWorker(takeWorkerUrl), ...take),
          cutPair: (pair) => cutPair(() => openWorker(pairWorkerUrl), pair),
          temperatureC: settings.temperatureC,
          meter,
          keeper,
          now: () => new Date(),
          kit: () => parts.kit.here() ?? null,
          newId: () => crypto.randomUUID(),
        }),
    ),
    why: createPart(
      '“Why?”',
      withStyles(() => import('./ui/why/Why')),
    ),
    tryOut: createPart(
      '“Try it”',
      withStyles(() => import('./ui/tryOut/TryOut')),
    ),
    callOut: createPart(
      'The big display',
      withStyles(() => import('./ui/callOut/CallOut')),
    ),
    callOutFeed: createPart('The big display', () => import('./ui/callOut/CallOutFeed')),
    sounds: createPart(
      'Voice and tone',
      withStyles(() => import('./ui/callOut/SoundPanel')),
    ),
    sums: createPart(
      '“How it comes about”',
      withStyles(() => import('./ui/sums/SumsPanel')),
    ),
    help: createPart(
      'Help',
      withStyles(() => import('./ui/help/Help')),
    ),
  };
  // a kit that was left open is there again
  if (kitLeftOpen(keeper) !== null) void parts.kit.fetch();
  render(() => <App meter={meter} settings={settings} parts={parts} />, root);
}

/** A trusted address where the browser asks for one; DOM types don't know that it is one. */
const openWorker = (url: string): Worker => new Worker(policy.createScriptURL(url), { type: 'module' });
