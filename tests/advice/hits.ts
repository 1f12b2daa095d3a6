/** Hits and their pictures, made up for the advice's tests. */
import type { HitFate } from '../../src/reading/codes';
import type { ChannelPicture, HitPicture } from '../../src/reading/hitPictures';
import type { HitReading } from '../../src/reading/reading';

/** 20 samples late, of drum 1. */
export function hit(serial: number, fate: HitFate, fields: Partial<HitReading> = {}): HitReading {
  return {
    serial,
    timeSeconds: serial,
    delaySamples: 20,
    polarity: 'same',
    fate,
    drum: 1,
    levelADbfs: -10,
    levelBDbfs: -12,
    correlation: null,
    bandCorrelation: [null, null, null, null],
    ...fields,
  };
}

/** Of a clean hit, a quarter into the picture. */
export function picture(
  a: Partial<ChannelPicture>,
  b: Partial<ChannelPicture> = {},
  only: 'a' | 'b' | null = null,
): HitPicture {
  const plain: ChannelPicture = {
    arrival: 0.25,
    push: 1,
    peak: 0.5,
    quality: 40,
    noiseBound: false,
    clipped: false,
    columns: new Float32Array(192),
  };
  return { serial: 1, a: { ...plain, ...a }, b: { ...plain, ...b }, only };
}
