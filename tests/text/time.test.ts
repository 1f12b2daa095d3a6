import { expect, it } from 'vitest';
import {
  accuracyMsColumn,
  fixedMs,
  fixedSeconds,
  msColumn,
  msFigure,
  msSpoken,
  msText,
  signedMsText,
} from '../../src/text/time';

it.each([
  [msText(2.954), '2.95 ms'],
  [msText(-0.4), '0.4 ms'],
  [msSpoken(2.95), '2.95 milliseconds'],
  [msSpoken(-1), '1 millisecond'],
  [signedMsText(0.2917), '+0.29 ms'],
  [signedMsText(-12.3456), '−12.35 ms'],
  [signedMsText(-0.001), '0.00 ms'],
  [msFigure(0.0731), '+0.073 ms'],
  [msFigure(-12.3456), '−12.35 ms'],
  [msFigure(null), '–'],
  [fixedMs(0.279, 3), '0.279 ms'],
  [fixedMs(21, 1), '21.0 ms'],
  [msColumn(0.1), '+0.10'],
  [msColumn(-2.954), '−2.95'],
  [msColumn(0.004), '0.00'],
  [accuracyMsColumn(0.023), '±0.02'],
  [accuracyMsColumn(0.001), '±0.01'],
  [fixedSeconds(0.4213, 2), '0.42 s'],
])('%s reads %s', (text, expected) => {
  expect(text).toBe(expected);
});
