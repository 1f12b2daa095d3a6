/**
 * Stands in for `codec-parser` in the built page (`vite.config.ts`). The decoder imports it for whole streams; here it only
 * gets frames, which `Frames` finds, so what is under another licence and never called needn't be sent.
 */
export const data = Symbol('data');
export const totalSamples = Symbol('totalSamples');
export const codecFrames = Symbol('codecFrames');
export const isLastPage = Symbol('isLastPage');

export default class NoParser {
  constructor() {
    throw new Error('the FLAC decoder takes frames only');
  }
}
