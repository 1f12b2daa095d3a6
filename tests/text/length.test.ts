import { expect, it } from 'vitest';
import {
  cmFigure,
  cmNumber,
  cmSpoken,
  cmText,
  fartherText,
  laterText,
  lengthFigure,
  notedCmText,
  pathFigure,
  roundPathCm,
  spanText,
} from '../../src/text/length';

it.each([
  [cmNumber(-3.4), '3.5'],
  [cmText(3.1), '3 cm'],
  [cmText(-3.4), '3.5 cm'],
  [cmText(9.8), '10 cm'],
  [cmText(12.4), '12 cm'],
  [notedCmText(-2.4), '2.4 cm'],
  [notedCmText(12.34), '12.3 cm'],
  [cmSpoken(1), '1 centimetre'],
  [cmSpoken(-3.5), '3.5 centimetres'],
  [spanText(0.001), '1 mm'],
  [spanText(0.42), '4 mm'],
  [spanText(-1.26), '1.3 cm'],
  [spanText(12.4), '12 cm'],
  [spanText(137), '137 cm'],
  [lengthFigure(0.42), '4 mm'],
  [lengthFigure(-2.51), '2.5 cm'],
  [lengthFigure(94.88), '94.9 cm'],
  [lengthFigure(137), '1.37 m'],
  [cmFigure(2.51), '+2.5 cm'],
  [pathFigure(2.51), 'B 2.5 cm farther'],
  [pathFigure(-2.51), 'B 2.5 cm closer'],
  [pathFigure(0.02), 'B level with A'],
  [pathFigure(null), '–'],
  [laterText(12.4), 'B 12 cm later'],
  [laterText(-3), 'B 3 cm earlier'],
  [laterText(0.02), 'B level with A'],
  [fartherText(2.44), '2.4 cm farther'],
  [fartherText(-0.6), '6 mm closer'],
])('%s reads %s', (text, expected) => {
  expect(text).toBe(expected);
});

it.each([
  [2.7, 0, 2.5],
  [-2.75, 0, -3],
  [12.4, 0, 12],
  [12.4, 3, 12],
  [13.2, 5, 15],
  [0.1, 0, 0],
  [-0.1, 0, 0],
])('a path of %s cm, known to %s cm, is said as %s cm', (pathCm, accuracyCm, said) => {
  expect(Object.is(roundPathCm(pathCm, accuracyCm), said)).toBe(true);
});
