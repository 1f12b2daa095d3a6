/** What is said beside the sum over frequency. */
import { CARRIED_WEIGHT, type CombView, carried, FITS_DB } from '../../state/views/combView';
import type { SumView } from '../../state/views/sumView';
import { bandText, hzText } from '../../text/frequency';
import { dbText, gainText } from '../../text/level';
import { fixed, percentText } from '../../text/number';

/** so many notches in a sentence */
const NOTCHES_SAID = 4;

/** "181 Hz, 543 Hz, 904 Hz, 1.3 kHz …" */
export function notchesText({ notchesHz }: Pick<CombView, 'notchesHz'>): string {
  const said = notchesHz.slice(0, NOTCHES_SAID).map(hzText).join(', ');
  return notchesHz.length > NOTCHES_SAID ? `${said} …` : said;
}

/** Whether the comb of delay and polarity is what is measured, or why it isn't. Without a delay: none. */
export function combText(comb: CombView | null, shown: boolean): string {
  if (comb === null) return shown ? 'Comb: none without a delay.' : '';
  const notches = shown && comb.notchesHz.length > 0 ? ` Notches: ${notchesText(comb)}` : '';
  if (comb.fit === null) return `Comb: too little measured to compare.${notches}`;
  if (!comb.fit.reaches) return `Comb: none of its notches lies where the hits agree.${notches}`;
  const share = `${percentText(comb.fit.share)} of the line within ${fixed(FITS_DB, 0)} dB`;
  return comb.fits
    ? `Comb: fits ${share}.${notches}`
    : `Comb: fits only ${share} (unlike mics, reflections).${notches}`;
}

/** Where the plan makes it thinner, and that the low octave gains all the same. */
export function lossText({ lossHz, ownBandHz, gainDb }: SumView): string {
  if (lossHz === null) return '';
  const [low, high] = lossHz;
  const said = `After the plan thinner at ${bandText(low, high)}`;
  const inStrip = ownBandHz !== null && low < ownBandHz[1] && high > ownBandHz[0];
  return inStrip && gainDb !== null && gainDb > 0
    ? `${said}; the octave as a whole gains ${dbText(gainDb)}.`
    : `${said}.`;
}

/** The whole picture for whoever can't see it. */
export function sumText(view: SumView | null, coherence: ArrayLike<number>): string {
  if (view === null) return 'Nothing measured yet.';
  let agree = 0;
  for (let i = 0; i < coherence.length; i++) if (carried(coherence[i] as number) > CARRIED_WEIGHT) agree++;
  const share = percentText(agree / coherence.length);
  const gain =
    view.ownBandHz && view.gainDb !== null
      ? ` The drum’s low octave, ${bandText(...view.ownBandHz)}: ${gainText(view.gainDb)} ${view.other === 'after' ? 'by the plan' : 'by inverting'}.`
      : '';
  const { elsewhere } = view;
  const most =
    elsewhere === null
      ? ''
      : ` The gain lies at ${bandText(elsewhere.lowHz, elsewhere.highHz)}: ${gainText(elsewhere.db)}.`;
  const other = view.otherDb ? ` The second line: ${view.otherWhat}.` : '';
  return `A+B, 20 Hz to 20 kHz, A and B at equal level. The hits agree over ${share} of it.${gain}${most}${other}`;
}
