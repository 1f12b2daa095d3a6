/** What became of each hit for the reading, and what its picture may show: codes and numbers. */
import type { HitFate, ReadingReason } from '../../reading/codes';
import type { HitPicture } from '../../reading/hitPictures';
import { POOL_HITS, QUIET_DBFS } from '../../reading/limits';
import { answerOf, type HitReading, type Reading, type Said } from '../../reading/reading';
import { lowEndOnly } from './reasons';

/** In which inputs something was so. */
export type Where = 'a' | 'b' | 'both';

export type Fate =
  | { code: 'used' | 'used-for-the-sum' | 'agrees-so-far' | 'pending' | 'two-drums' | 'too-soon' | 'dropped-audio' }
  /** of a drum that is listed, while it is open which one is meant */
  | { code: 'listed-drum'; drum: number }
  /** id of the drum; null: of none that is kept */
  | { code: 'other-drum'; drum: number | null }
  /** null: it isn't known where */
  | { code: 'clipped'; in: Where | null }
  /** no first push can be seen */
  | { code: 'quiet' | 'noisy'; in: Where }
  | { code: 'no-clear-push' }
  | { code: 'one-side-only'; heardIn: 'a' | 'b' | null }
  | { code: 'too-long-ago' | 'before-the-move' }
  /** from the answer's delay; null where one of the two has none */
  | { code: 'disagrees'; byMs: number | null }
  | { code: 'other-polarity' };

/** What became of a hit for this reading: one behind the answer of another drum is of another drum. */
export function fateHere(hit: HitReading, reading: Reading): HitFate {
  const others = hit.drum !== null && reading.drum !== null && hit.drum !== reading.drum;
  return others && hit.fate !== 'two-drums' && hit.fate !== 'too-soon' ? 'other-drum' : hit.fate;
}

/** The same with what is known of it; the picture, where there is one, says more. */
export function fateOf(hit: HitReading, reading: Reading, picture: HitPicture | null): Fate {
  const said = answerOf(reading);
  const code = fateHere(hit, reading);
  switch (code) {
    case 'used':
      if (lowEndOnly(said) !== null) return { code: 'used-for-the-sum' };
      if (said.reason === 'which-drum' && hit.drum !== null) return { code: 'listed-drum', drum: hit.drum };
      return { code: said.delaySamples === null ? 'agrees-so-far' : 'used' };
    case 'pending':
    case 'two-drums':
    case 'too-soon':
    case 'dropped-audio':
      return { code };
    case 'other-drum':
      return { code, drum: hit.drum };
    case 'clipped':
      return { code, in: where(picture?.a.clipped, picture?.b.clipped) };
    case 'no-arrival':
      return withoutArrival(hit, picture);
    case 'one-side-only':
      return { code, heardIn: picture?.only ?? null };
    case 'old': {
      const after = reading.perHit.filter((other) => other.serial > hit.serial && other.drum === hit.drum).length;
      return { code: after >= POOL_HITS ? 'too-long-ago' : 'before-the-move' };
    }
    case 'disagrees':
      return disagreement(hit, said, reading.sampleRate);
  }
}

function where(a: boolean | undefined, b: boolean | undefined): Where | null {
  if (a && b) return 'both';
  return a ? 'a' : b ? 'b' : null;
}

const isQuiet = (levelDbfs: number | null): boolean => levelDbfs !== null && levelDbfs < QUIET_DBFS;

function withoutArrival(hit: HitReading, picture: HitPicture | null): Fate {
  const quiet = where(isQuiet(hit.levelADbfs), isQuiet(hit.levelBDbfs));
  if (quiet !== null) return { code: 'quiet', in: quiet };
  const noisy = where(picture?.a.noiseBound, picture?.b.noiseBound);
  return noisy === null ? { code: 'no-clear-push' } : { code: 'noisy', in: noisy };
}

function disagreement(hit: HitReading, said: Said, sampleRate: number): Fate {
  if (hit.delaySamples === null) return { code: 'disagrees', byMs: null };
  if (said.polarity !== null && hit.polarity !== said.polarity) return { code: 'other-polarity' };
  if (said.delaySamples === null) return { code: 'disagrees', byMs: null };
  return { code: 'disagrees', byMs: ((hit.delaySamples - said.delaySamples) / sampleRate) * 1000 };
}

/** The picture with no first push where none can be read. */
export function honestPicture(picture: HitPicture, said: { reason: ReadingReason }): HitPicture {
  const dull = lowEndOnly(said);
  return dull === null ? picture : { ...picture, [dull]: { ...picture[dull], arrival: null } };
}
