/**
 * Decodes whole FLAC frames, by libFLAC compiled to WebAssembly, whose bytes stand in its script: nothing is fetched for it.
 * It comes with the first FLAC file, not with the page.
 */
import { WavError } from '../wavChunks';

export interface Decoder {
  /**
   * @param frames each a whole one, its checksum found right; they follow one another
   * @param from sample frames before the first of them
   * @returns an array a channel, full scale ±1, bit-exact @throws WavError
   */
  decode(frames: Uint8Array[], from: number, sampleFrames: number): Promise<Float32Array[]>;
  free(): void;
}

/** what the library scales; others it spoils */
export const DECODED_BITS: readonly number[] = [8, 16, 24];

export async function createDecoder(channels: number, bits: number): Promise<Decoder> {
  const { FLACDecoder } = await import('@wasm-audio-decoders/flac');
  const decoder = new FLACDecoder();
  await decoder.ready;
  const full = 2 ** (bits - 1);
  let next = 0;
  return {
    async decode(frames, from, sampleFrames) {
      // to the library a jump is a frame that is missing
      if (from !== next) await decoder.reset();
      next = from + sampleFrames;
      const { channelData, samplesDecoded, errors } = await decoder.decodeFrames(frames);
      if (errors.length > 0 || samplesDecoded !== sampleFrames || channelData.length !== channels) {
        throw new WavError('unsupported', 'its samples can’t be decoded; export it again as WAV.');
      }
      // it divides by one step less than full scale, which leaves each step apart from the next: all of 24 bits were tried
      for (const samples of channelData) {
        for (let i = 0; i < samples.length; i++) samples[i] = Math.round(samples[i] * (full - 1)) / full;
      }
      return channelData;
    },
    free: () => decoder.free(),
  };
}
