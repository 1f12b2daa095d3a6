import { expect, it } from 'vitest';
import {
  counted,
  fixedSamples,
  hitsText,
  samplesColumn,
  samplesFigure,
  samplesText,
  wholeSamples,
} from '../../src/text/count';

it.each([
  [counted(1, 'missing pair'), '1 missing pair'],
  [counted(0, 'missing pair'), '0 missing pairs'],
  [counted(2, 'box', 'boxes'), '2 boxes'],
  [hitsText(1), '1 hit'],
  [hitsText(6), '6 hits'],
  [samplesText(1), '1 sample'],
  [samplesText(142), '142 samples'],
  [samplesFigure(-3.22), '−3.2 samples'],
  [samplesFigure(null), '–'],
  [fixedSamples(12.3, 2), '12.30 samples'],
  [samplesColumn(0.1, 48000), '+5'],
  [samplesColumn(-2.954, 48000), '−142'],
  [samplesColumn(-0.001, 48000), '0'],
  [String(wholeSamples(-0.1, 48000)), '5'],
])('%s reads %s', (text, expected) => {
  expect(text).toBe(expected);
});
