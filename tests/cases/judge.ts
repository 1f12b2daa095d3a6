/** Is an answer right? By the case's truth, at the moment it was given. */
import type { Polarity } from '../../src/reading/reading';
import type { DrumTruth, KitCase } from './case';
import { samplesToCm, truthOf } from './truth';

/** An answer farther off than this is grossly wrong, cm. */
export const GROSS_CM = 2.4;
/** a hit of the answer is one of the drum's if they lie so close together, s */
const SAME_HIT_SECONDS = 0.015;
/** of a moved microphone, the place at any of so many newest hits counts */
const GRACE_HITS = 3;

export interface Answer {
  polarity: Polarity;
  delaySamples: number;
  /** when it was given, s of the stream */
  atSeconds: number;
  /** times of the hits behind it, s */
  hitSeconds: readonly number[];
}

export interface Judgement {
  right: boolean;
  polarityRight: boolean;
  /** by path, cm; NaN where nothing can be told */
  errorCm: number;
  /** what it was compared with, samples */
  trueSamples: number;
  drum: string | null;
}

const NOTHING: Judgement = {
  right: false,
  polarityRight: false,
  errorCm: Number.NaN,
  trueSamples: Number.NaN,
  drum: null,
};

export class Judge {
  readonly drums: DrumTruth[];

  /** id of the drum that the pair stands for; null where nothing can be told */
  readonly asked: string | null;

  constructor(private readonly made: KitCase) {
    this.asked = made.noAnswer === null ? made.asked : null;
    this.drums = truthOf(made);
  }

  /**
   * An answer belongs to the drum whose hits it used, a flam's grace stroke among them; where two are always struck
   * together, to the one that it fits better. But a cymbal that comes with the drum's strokes is no excuse: hits in which
   * a drum was struck are the drum's.
   */
  judge(answer: Answer): Judgement {
    const { made } = this;
    if (made.noAnswer === 'one signal') {
      const errorCm = samplesToCm(answer.delaySamples, made.sampleRate);
      const polarityRight = (answer.polarity === 'inverted') === made.wiredInverted;
      return {
        right: polarityRight && Math.abs(errorCm) <= GROSS_CM,
        polarityRight,
        errorCm,
        trueSamples: 0,
        drum: null,
      };
    }
    const counts = this.drums.map((drum) => answer.hitSeconds.filter((t) => isHitOf(drum, t)).length);
    const most = Math.max(0, ...counts);
    const isAmong = (i: number): boolean => (counts[i] as number) >= 0.75 * most;
    const drumStruck = this.drums.some(({ metal }, i) => !metal && isAmong(i));
    let best = NOTHING;
    for (const [i, drum] of this.drums.entries()) {
      if (most === 0 || !isAmong(i) || (drumStruck && drum.metal)) continue;
      const found = this.compare(answer, drum);
      const better = Number(found.right) - Number(best.right) || Math.abs(best.errorCm) - Math.abs(found.errorCm);
      if (best.drum === null || better > 0) best = found;
    }
    return best;
  }

  private compare(answer: Answer, drum: DrumTruth): Judgement {
    const { made } = this;
    const polarityRight = answer.polarity === drum.polarity;
    let errorCm = Number.POSITIVE_INFINITY;
    let trueSamples = Number.NaN;
    for (const truth of this.truthsNow(answer, drum)) {
      const error = samplesToCm(answer.delaySamples - truth, made.sampleRate);
      if (Math.abs(error) < Math.abs(errorCm)) [errorCm, trueSamples] = [error, truth];
    }
    return {
      right: polarityRight && Math.abs(errorCm) <= GROSS_CM,
      polarityRight,
      errorCm,
      trueSamples,
      drum: drum.id,
    };
  }

  /** Of a microphone that stays the mean over all hits; else what held lately. */
  private truthsNow(answer: Answer, drum: DrumTruth): number[] {
    const { a, b } = this.made;
    if (!a.move && !b.move) return [drum.delaySamples];
    const heard = drum.hits.filter((hit) => hit.timeSeconds <= answer.atSeconds);
    return heard.slice(-GRACE_HITS).map((hit) => hit.delaySamples);
  }
}

function isHitOf(drum: DrumTruth, timeSeconds: number): boolean {
  return drum.hits.some((hit) => Math.abs(hit.timeSeconds - timeSeconds) <= SAME_HIT_SECONDS);
}
