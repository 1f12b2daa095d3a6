/** From a Reading and a pair kind to what to do, why, and how sure. Pure: the same in, the same out. */
import { delaySeconds } from '../reading/acoustics';
import { answerOf, type Reading, type Said } from '../reading/reading';
import { bandText } from '../text/frequency';
import { cmText } from '../text/length';
import { capital, lowerFirst } from '../text/sentence';
import type { Advice, AdviceContext } from './advice';
import { gapOf, moveOf } from './plan/gap';
import { pairKind } from './plan/kinds';
import { adviseMeasured } from './plan/measured';
import { lowEndVote, opposingVote } from './plan/votes';
import { whichDrum } from './words/drumWords';
import { lowEndOnly } from './words/fate';
import { endedWords, reasonSentence, reasonWords, statedOf } from './words/reasonWords';
import { cautionsFor, moveSpoken, octaveText, plainAdvice, standText, voteText } from './words/wording';

/** from so many hits on, "not yet" would be a false hope */
const HOPELESS_HITS = 16;

/** What to do about the pair. */
export function advise(reading: Reading, context: AdviceContext): Advice {
  const said = answerOf(reading);
  const advice = adviseState(reading, said, context);
  const which = said.state === 'measured' ? '' : whichDrum(reading);
  return which === '' ? advice : { ...advice, sureness: `${advice.sureness} (${which})` };
}

function adviseState(reading: Reading, said: Said, context: AdviceContext): Advice {
  switch (said.state) {
    case 'measured': {
      const gap = gapOf(said, reading.sampleRate, context.temperatureC);
      return gap === null ? cannotTell(reading, said, context) : adviseMeasured(reading, said, gap, context);
    }
    case 'following':
      return context.ended ? hitMore(reading, context) : follow(reading, said, context);
    case 'listening':
      return hitMore(reading, context);
    case 'unclear':
      return said.reason === 'moved' || said.reason === 'nothing-yet' || said.reason === 'too-few-hits'
        ? hitMore(reading, context)
        : cannotTell(reading, said, context);
    case 'no-signal':
    case 'same-signal':
    case 'overloaded':
      return fixInput(reading, said, context);
  }
}

function hitMore(reading: Reading, context: AdviceContext): Advice {
  const ended = context.ended ? endedWords(statedOf(reading)) : null;
  if (ended)
    return plainAdvice('hit-more', ended.text, ended.short, lowerFirst(ended.short), cautionsFor(context, false));
  const { short } = reasonWords(statedOf(reading));
  return plainAdvice('hit-more', reasonSentence(reading), 'Keep hitting', short, cautionsFor(context, false));
}

function fixInput(reading: Reading, said: Said, context: AdviceContext): Advice {
  const { short } = reasonWords(statedOf(reading));
  const call = said.state === 'overloaded' ? `${short}, turn its gain down` : `Check the inputs: ${short}`;
  return plainAdvice('fix-input', reasonSentence(reading), call, `no reading: ${short}`, cautionsFor(context, false));
}

/** A microphone on the move: how far still to go, as a help for the hand and not as a reading. */
function follow(reading: Reading, said: Said, context: AdviceContext): Advice {
  // a provisional reading has no polarity; the way to go doesn't need one
  const gap = gapOf({ ...said, polarity: said.polarity ?? 'same' }, reading.sampleRate, context.temperatureC);
  const sureness = 'provisional: a microphone is on the move';
  const cautions = cautionsFor(context, true);
  const kind = pairKind(context.kind);
  if (gap === null || !kind.movable) {
    return plainAdvice('hit-more', reasonSentence(reading), 'On the move, keep hitting', sureness, cautions);
  }
  // on the way there is no accuracy to tell, only how far is left
  const left = moveOf(kind, { ...gap, uncertaintyCm: gap.uncertaintyCm ?? 0 });
  if (left === null) {
    const text = `A microphone is on the move, and the distances are within about ${cmText(kind.toleranceCm)}: stop there and keep hitting.`;
    const near = Math.abs(gap.pathCm) < kind.toleranceCm;
    return near
      ? plainAdvice('hit-more', text, 'Stop there, keep hitting', sureness, cautions)
      : plainAdvice('hit-more', reasonSentence(reading), 'On the move, keep hitting', sureness, cautions);
  }
  const way = left > 0 ? 'B closer to the drum, or A back' : 'B back from the drum, or A closer';
  const text = `A microphone is on the move: about ${cmText(left)} to go, ${way}; keep hitting, the number is provisional.`;
  return plainAdvice('hit-more', text, `${moveSpoken(left)} or so to go`, sureness, cautions);
}

/** No arrival. The sum may answer all the same; a polarity of the arrival is never claimed. */
function cannotTell(reading: Reading, said: Said, context: AdviceContext): Advice {
  const { because, next, short } = reasonWords(statedOf(reading));
  const vote = lowEndVote(reading.sum);
  const hopeless = lowEndOnly(said) !== null || reading.hits >= HOPELESS_HITS;
  const start = hopeless
    ? `No ${vote ? 'arrival' : 'answer'} will come from this pair as it stands, because ${because}`
    : `Can't tell${vote ? ' the arrival' : ''}, because ${because}`;
  const sum = vote ? ` The sum still answers: ${voteText(vote, context)}.` : '';
  const call = vote ? `Can't tell the arrival; fuller ${standText(vote.prefers, context)}` : `Can't tell: ${short}`;
  const cautions = cautionsFor(context, false);
  const advice = plainAdvice('cannot-tell', `${start}; ${next}.${sum}`, call, `can't tell: ${short}`, cautions);
  if (vote) {
    const other = opposingVote(reading.sum, vote.prefers);
    if (other) {
      const band = bandText(other.lowHz, other.highHz);
      advice.notes.push(`Another band says the opposite: ${band} is fuller ${standText(other.prefers, context)}.`);
    }
    advice.notes.push(
      'This is the sum as things stand, not the polarity of the first push: it changes with every move.',
    );
  } else if (reading.sum.fuller === 'either' && reading.sum.fullerLowHz !== null && reading.sum.fullerHighHz !== null) {
    const octave = capital(octaveText(reading.sum.fullerLowHz, reading.sum.fullerHighHz));
    advice.notes.push(`${octave} is as full with either polarity of B, within 1 dB.`);
  }
  return advice;
}

/**
 * How the advice changes what the meter shows now: B's delay falls by `shiftSeconds` (a move, or A delayed in the mix), and B
 * is turned over or not: with the meter's own invert on, pressing B's switch and taking the invert off changes nothing, and
 * taking the invert off alone turns it.
 * Null: nothing changes, or there is no answer.
 */
export function afterAdvice(advice: Advice, context: AdviceContext): { shiftSeconds: number; invert: boolean } | null {
  const presses = advice.action === 'invert' || advice.action === 'invert-and-move';
  const answers = presses || ['leave', 'move', 'delay-later'].includes(advice.action);
  if (!answers) return null;
  const moved = delaySeconds(advice.moveCm ?? 0, context.temperatureC);
  const shiftSeconds = advice.action === 'delay-later' ? (advice.delayLaterMs ?? 0) / 1000 : moved;
  const invert = presses !== context.invertB;
  return shiftSeconds === 0 && !invert ? null : { shiftSeconds, invert };
}
