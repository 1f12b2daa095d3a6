/** A simulated take's tracks, and faults planted in them as they come about: a cable turned round, one not plugged in, a wrong name. */
import { shift } from '../sound/resample';
import { renderDead } from './renderTake';
import type { SimulatedTake } from './simulatedKit';
import type { TakeTruth } from './simulatedTruth';

/** Files are as the take's truth calls them. */
export type Planted =
  | { kind: 'inverted'; file: string }
  | { kind: 'late'; file: string; ms: number }
  /** what its channel adds alone, or digital silence */
  | { kind: 'dead'; file: string; noise: boolean }
  | { kind: 'swapped'; files: readonly [string, string] }
  /** its peak would lie so far above full scale */
  | { kind: 'clipped'; file: string; overDb: number }
  /** `file` carries what `of` carries, times gain */
  | { kind: 'copied'; file: string; of: string; gain: number };

export interface TakeSound {
  tracks: Float32Array[];
  truth: TakeTruth;
}

/** One after the other; what is given stays as it is. @throws RangeError where there is no such file */
export function plantFaults(made: SimulatedTake, sound: TakeSound, faults: readonly Planted[]): TakeSound {
  const tracks = [...sound.tracks];
  const truth = structuredClone(sound.truth);
  const at = (file: string): number => {
    const index = truth.files.indexOf(file);
    if (index < 0) throw new RangeError(`The take has no ${file}; it has ${truth.files.join(', ')}.`);
    return index;
  };
  for (const fault of faults) {
    if (fault.kind === 'swapped') {
      // the names stay and the signals change places, which is the same
      const [p, q] = fault.files.map(at);
      exchange(tracks, p, q);
      exchange(truth.lowEndOnly, p, q);
      for (const { arrivalSamples, signs } of truth.drums) {
        exchange(arrivalSamples, p, q);
        exchange(signs, p, q);
      }
      continue;
    }
    const t = at(fault.file);
    if (fault.kind === 'copied') {
      const of = at(fault.of);
      tracks[t] = tracks[of].map((v) => fault.gain * v);
      truth.lowEndOnly[t] = truth.lowEndOnly[of];
      for (const { arrivalSamples, signs } of truth.drums) {
        arrivalSamples[t] = arrivalSamples[of];
        signs[t] = fault.gain < 0 ? (-signs[of] as 1 | -1) : signs[of];
      }
      continue;
    }
    tracks[t] = spoilt(made, tracks[t], t, fault);
    for (const { arrivalSamples, signs } of truth.drums) {
      if (fault.kind === 'inverted') signs[t] = -signs[t] as 1 | -1;
      if (fault.kind === 'late') arrivalSamples[t] += (fault.ms / 1000) * made.sampleRate;
      if (fault.kind === 'dead') arrivalSamples[t] = Number.NaN;
    }
  }
  return { tracks, truth };
}

function exchange<T>(list: T[], p: number, q: number): void {
  [list[p], list[q]] = [list[q], list[p]];
}

type OfOneTrack = Exclude<Planted, { kind: 'swapped' | 'copied' }>;

function spoilt(made: SimulatedTake, x: Float32Array, t: number, fault: OfOneTrack): Float32Array {
  switch (fault.kind) {
    case 'inverted':
      return x.map((v) => -v);
    case 'late':
      return Float32Array.from(shift(x, (fault.ms / 1000) * made.sampleRate));
    case 'dead':
      return fault.noise ? renderDead(made, t) : new Float32Array(x.length);
    case 'clipped': {
      const peak = x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
      const gain = 10 ** (fault.overDb / 20) / peak;
      return x.map((v) => Math.max(-1, Math.min(1, gain * v)));
    }
  }
}
