/** Puts the page together: audio door, settings, meter, screen. */
import { render } from 'solid-js/web';
import { browserAudio } from './audio/browserAudio';
import { createMeter } from './state/meter';
import { createSettings } from './state/settings';
import { browserKeeper } from './state/storage';
import { App } from './ui/App';
import './ui/base.css';
import './ui/sheet.css';
import './ui/callOut.css';
import './ui/small.css';
import './ui/pages.css';
import './ui/why.css';

const root = document.getElementById('app');
if (root) {
  const settings = createSettings(browserKeeper());
  const meter = createMeter({
    door: browserAudio,
    settings,
    schedule: (paint) => void requestAnimationFrame(paint),
    nowMs: () => performance.now(),
  });
  render(() => <App meter={meter} settings={settings} />, root);
}
