/** Puts the page together: audio door, settings, meter, screen. */
import { createRoot } from 'solid-js';
import { render } from 'solid-js/web';
import { browserAudio } from './audio/browserAudio';
import { createMeter } from './state/meter/meter';
import { createSettings } from './state/meter/settings';
import { createRound } from './state/round/round';
import { createKitShelf } from './state/shelf/kitShelf';
import { SheetStore } from './state/shelf/sheetStore';
import { browserKeeper } from './state/shelf/storage';
import { App } from './ui/App';
import './ui/shared/base.css';
import './ui/meter/meter.css';
import './ui/meter/callOut.css';
import './ui/shared/small.css';
import './ui/sources/sources.css';
import './ui/why/why.css';
import './ui/kit/kit.css';
import './ui/print/print.css';

const root = document.getElementById('app');
if (root) {
  const keeper = browserKeeper();
  const now = (): Date => new Date();
  const settings = createSettings(keeper);
  const meter = createMeter({
    door: browserAudio,
    settings,
    schedule: (paint) => void requestAnimationFrame(paint),
    nowMs: () => performance.now(),
  });
  const shelf = createKitShelf({ store: new SheetStore(), keeper, newId: () => crypto.randomUUID(), now });
  const round = createRoot(() => createRound({ meter, shelf, settings, keeper, now }));
  void shelf.begin();
  const exampleText = async (): Promise<string> => {
    const response = await fetch('./example-kit.json');
    if (!response.ok) throw new Error(response.statusText);
    return response.text();
  };
  render(() => <App meter={meter} settings={settings} shelf={shelf} round={round} exampleText={exampleText} />, root);
}
