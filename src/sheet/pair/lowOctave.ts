/** The drum's low octave: one of LOW_OCTAVES_HZ, told by its lower edge. */
import { LOW_OCTAVES_HZ } from '../../reading/bands';

/** Lower edges that lie closer than this are of one, octaves. */
const SAME_OCTAVES = 0.1;

/** @param lowHz, otherLowHz the two lower edges */
export const isSameBand = (lowHz: number, otherLowHz: number): boolean =>
  Math.abs(Math.log2(lowHz / otherLowHz)) < SAME_OCTAVES;

/** Its place in LOW_OCTAVES_HZ; −1: none, or not known. */
export const octaveOf = (lowHz: number | null): number =>
  lowHz === null ? -1 : LOW_OCTAVES_HZ.findIndex((hz) => isSameBand(hz, lowHz));
