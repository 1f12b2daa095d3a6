/** Puts the page together: audio door, settings, meter, screen, and what of the page is fetched later. */
import { render } from 'solid-js/web';
import { browserAudio } from './audio/browserAudio';
import { createMeter } from './state/meter/meter';
import { browserKeeper } from './state/settings/keeper';
import { createSettings } from './state/settings/settings';
import { kitLeftOpen } from './state/shelf/leftOpen';
import { App } from './ui/App';
import { createPart } from './ui/parts/part';
import { withStyles } from './ui/parts/withStyles';
import type { Parts } from './ui/shared/appScope';
import './ui/shared/base.css';
import './ui/meter/meter.css';
import './ui/plots/plots.css';
import './ui/meter/controls.css';
import './ui/meter/drums.css';
import './ui/shared/small.css';
import './ui/sources/sources.css';

const root = document.getElementById('app');
if (root) {
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
    why: createPart(
      'The view of the hits',
      withStyles(() => import('./ui/why/Why')),
    ),
    callOut: createPart(
      'The big display',
      withStyles(() => import('./ui/callOut/CallOut')),
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
