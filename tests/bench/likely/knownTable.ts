/** An answer that was known, looked for in drawn grooves: how often it is found again, and how often one that isn't true any more is. */
import { pairKind } from '../../../src/advice/plan/pairKinds';
import { Known } from '../../../src/dsp/delay/likely/known';
import { Engine } from '../../../src/dsp/engine';
import type { HeardDrum } from '../../../src/dsp/heardDrums';
import { METHOD } from '../../../src/reading/codes';
import { drawCase, groupOf } from '../../cases/drawCase';
import { renderCase } from '../../cases/renderCase';
import { truthOf } from '../../cases/truth';
import { table } from '../table';
import type { Inside } from './gather';

const BLOCK = 2048;
const LEAST_HITS = 4;
/** share of a drum's hits that have to be the true one's, each within so many s */
const OWN_SHARE = 0.75;
const SAME_HIT_SECONDS = 0.015;
const CM_PER_SECOND = 34321;
const OFF_BY_CM = 2.4;
const KNOWN = [
  { name: 'what is true', offCm: [0], turned: false },
  { name: '4 or 6 cm else', offCm: [4, -4, 6, -6], turned: false },
  { name: '15 cm else', offCm: [15, -15], turned: false },
  { name: 'the other polarity', offCm: [0], turned: true },
];

interface Counts {
  looks: number;
  found: number;
  off: number;
}

/** @param from the first seed @param to the last one + 1 */
export function knownTable(from: number, to: number): string {
  const counts = new Map<string, Counts>();
  for (let seed = from; seed < to; seed++) if (groupOf(seed) === 'groove') lookIn(seed, counts);
  const rows = KNOWN.flatMap(({ name }) =>
    ['open', 'answered'].map((state) => {
      const { looks, found, off } = counts.get(`${name} ${state}`) ?? { looks: 0, found: 0, off: 0 };
      return [name, state, looks, found, off];
    }),
  );
  return table(
    `A known answer looked for in drawn grooves, seeds ${from}–${to - 1}, from ${LEAST_HITS} hits of the drum on: looks, found again, of those more than ${OFF_BY_CM} cm off or inverted`,
    ['known is', 'without it the drum is', 'looks', 'found', 'wrong'],
    rows,
  );
}

function lookIn(seed: number, counts: Map<string, Counts>): void {
  const made = drawCase(seed);
  const { a, b, sampleRate } = renderCase(made);
  const [truth] = truthOf(made);
  if (!truth) return;
  const engine = new Engine(sampleRate, { maxLagMs: pairKind(made.kind).maxLagMs });
  const { heard, store, startFrame } = engine as unknown as Inside;
  const known = new Known(sampleRate);
  const perCm = sampleRate / CM_PER_SECOND;
  const trueSign = truth.polarity === 'same' ? 1 : -1;
  const look = (d: number): void => {
    const { pool, decision } = heard.each[d] as HeardDrum;
    const slots = pool.drumSlots.subarray(0, pool.drumHits);
    const own = slots.filter((s) => {
      const seconds = ((store.anchor[s] as number) - startFrame) / sampleRate;
      return truth.hits.some((hit) => Math.abs(hit.timeSeconds - seconds) < SAME_HIT_SECONDS);
    });
    if (slots.length < LEAST_HITS || own.length < OWN_SHARE * slots.length) return;
    const state = decision.sign === 0 || decision.method === METHOD.likeliest ? 'open' : 'answered';
    for (const { name, offCm, turned } of KNOWN)
      for (const cm of offCm) {
        const key = `${name} ${state}`;
        const count = counts.get(key) ?? { looks: 0, found: 0, off: 0 };
        counts.set(key, count);
        count.looks++;
        known.keep(truth.delaySamples + cm * perCm, turned ? -trueSign : trueSign, perCm);
        if (!known.confirmed(store, pool)) continue;
        count.found++;
        if (turned || Math.abs(known.shownDelay - truth.delaySamples) > OFF_BY_CM * perCm) count.off++;
      }
  };
  const decided = heard.decided.bind(heard);
  heard.decided = (hits, d, common) => {
    decided(hits, d, common);
    look(d);
  };
  for (let i = 0; i < a.length; i += BLOCK) engine.push(a.subarray(i, i + BLOCK), b.subarray(i, i + BLOCK));
  engine.flush();
}
