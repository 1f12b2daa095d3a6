/** What the big display shows of the meter now, on this page and in windows of its own alike. */
import { type Accessor, createMemo } from 'solid-js';
import { PATCH_CALL } from '../../advice/words/cautionWords';
import { micNames } from '../../advice/words/wording';
import type { CallOutFlag, CallOutView } from '../../state/callOut/callOutView';
import type { Page } from '../../state/meter/meterTypes';
import { pathText } from '../../text/length';
import { offsetTakenOut } from '../meter/OffsetInForce';
import { type AppContext, useApp } from '../shared/appScope';
import { flagsNow } from '../shared/Flags';
import { figuresOf, isRough } from '../shared/figures';
import { heldCall } from '../shared/heldWords';
import { isOld, shortText } from '../shared/oldWords';

/** where the reading is of the pair that is asked about */
const READS: readonly Page[] = ['meter', 'kit', 'hand-over'];

function allFlags(app: AppContext): CallOutFlag[] {
  const flags = flagsNow(app);
  if (app.meter.offsetSamples() === 0) return flags;
  const session = app.meter.offsetForSession() ? ', until this page is closed: the browser won’t save it' : '';
  return [...flags, { code: 'offset', text: offsetTakenOut(app.meter) + session, strong: false }];
}

/** To be called where effects have an owner and the page can be reached. */
export function createCallOutView(): Accessor<CallOutView> {
  const app = useApp();
  const { meter, settings, parts, shown } = app;
  const kit = parts.kit.here;
  const roundCall = createMemo(() => kit()?.useRoundCall() ?? null);
  const reads = (): boolean => READS.includes(meter.page());
  const reading = () => (reads() ? shown.reading() : null);
  const answer = () => (reads() ? shown.answer() : null);
  const advice = () => (reads() ? shown.advice() : null);
  const patching = (): boolean => kit()?.round.patching() ?? false;
  // what is still plugged in isn't the pair that comes next
  const text = (): string => {
    if (patching()) return `${kit()?.round.feed() === 'inputs' ? 'Patch' : 'Next:'} ${kit()?.round.title()}`;
    const held = reads() ? heldCall(app) : null;
    return held ?? advice()?.callOut ?? (meter.source() === null ? 'Nothing to measure yet' : 'Waiting');
  };
  const rate = (): number => reading()?.sampleRate ?? 1;
  const now = (): string => {
    const said = answer();
    if (patching() || said?.state !== 'measured') return '';
    const { path } = figuresOf(said, rate(), settings.temperatureC(), advice(), micNames(meter.context()));
    return `${said.polarity}, ${path}`;
  };
  // A and B may have been swapped since: their names of now needn’t be those of then
  const before = (): string => {
    const value = meter.previous();
    return patching() || value === null || !reads() ? '' : `${value.polarity}, ${pathText(value.pathCm)}`;
  };
  const problem = (): CallOutView['problem'] => {
    const told = meter.problem() ?? meter.aside();
    if (!told) return { code: '', text: '' };
    return { code: told.code, text: meter.problem() ? told.text : shortText(told) };
  };
  const view = (): CallOutView => {
    const said = advice()?.sureness ?? '';
    const large = text();
    return {
      text: large,
      // "no answer yet" and why is the call itself already
      sureness: patching() || said.toLowerCase() === large.toLowerCase() ? '' : said,
      now: now(),
      before: before(),
      // one line, whatever the call sends hands to
      caution: patching() ? (kit()?.round.feed() === 'inputs' ? PATCH_CALL : '') : (advice()?.cautions[0] ?? ''),
      flags: allFlags(app),
      problem: problem(),
      mark: {
        state: answer()?.state ?? null,
        have: answer()?.hitsPooled ?? 0,
        need: reading()?.hitsNeeded ?? 4,
        rough: isRough(answer(), rate(), settings.temperatureC(), settings.kind()),
      },
      old: isOld({ run: meter.run, reading }),
      round: roundCall()?.() ?? null,
      action: advice()?.action ?? '',
      moveCm: advice()?.moveCm ?? null,
      previousPathCm: meter.previous()?.pathCm ?? null,
      lights: settings.lights(),
      from: meter.sourceLabel(),
    };
  };
  // readings come thirty times a second, and mostly say the same
  return createMemo(view, undefined, { equals: (one, other) => JSON.stringify(one) === JSON.stringify(other) });
}
