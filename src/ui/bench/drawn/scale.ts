/** From the bench's centimetres to the drawing's pixels, y down. */
import { DRUMS } from '../../../teaching/bench/drums';
import type { DrumId, Spot } from '../../../teaching/bench/model';

export interface Scale {
  width: number;
  height: number;
  /** px a cm */
  perCm: number;
  /** of text, px */
  letters: number;
  x(cm: number): number;
  y(cm: number): number;
}

export function scaleOf(drum: DrumId, { width, height }: { width: number; height: number }): Scale {
  const { leftCm, rightCm, bottomCm, topCm } = DRUMS[drum].view;
  const perCm = Math.min(width / (rightCm - leftCm), height / (topCm - bottomCm));
  const [middleX, middleY] = [(leftCm + rightCm) / 2, (bottomCm + topCm) / 2];
  return {
    width,
    height,
    perCm,
    letters: Math.max(14, Math.min(24, width / 24)),
    x: (cm) => width / 2 + (cm - middleX) * perCm,
    y: (cm) => height / 2 - (cm - middleY) * perCm,
  };
}

export const at = (scale: Scale, { xCm, yCm }: Spot): { x: number; y: number } => ({
  x: scale.x(xCm),
  y: scale.y(yCm),
});
