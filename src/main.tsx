/** Puts the page together: audio door, settings, meter, screen. */
import { createRoot } from 'solid-js';
import { render } from 'solid-js/web';
import { browserAudio } from './audio/browserAudio';
import { createKitShelf } from './state/kitShelf';
import { createMeter } from './state/meter';
import { createRound } from './state/round';
import { createSettings } from './state/settings';
import { SheetStore } from './state/sheetStore';
import { browserKeeper } from './state/storage';
import { App } from './ui/App';
import './ui/base.css';
import './ui/sheet.css';
import './ui/callOut.css';
import './ui/small.css';
import './ui/pages.css';
import './ui/why.css';
import './ui/kit.css';
import './ui/print.css';

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
