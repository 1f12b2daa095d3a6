/** Reads a Chromium trace: what the audio thread and the main thread spent their time on. Times in ms unless named µs. */

/** The parts of a trace event used here; `ts` and `dur` in µs. */
export interface TraceEvent {
  name: string;
  cat: string;
  ph: string;
  pid: number;
  tid: number;
  ts: number;
  dur?: number;
}

/** What to ask `browser.startTracing` for. */
export const TRACE_CATEGORIES = [
  'disabled-by-default-webaudio.audionode',
  'webaudio',
  'devtools.timeline',
  'v8',
  'disabled-by-default-v8.gc',
];

const PROCESS = 'AudioWorkletHandler::Process';
const FRAME = 'FireAnimationFrame';
/** Script as the timeline names it: callbacks, handlers, microtasks, first evaluation. */
const SCRIPT = new Set([FRAME, 'FunctionCall', 'RunMicrotasks', 'EvaluateScript', 'v8.callFunction', 'TimerFire']);
const COLLECTION = new Set(['MinorGC', 'MajorGC']);
/** work on garbage: whole collections, and the steps that prepare a large one */
const GC = new Set([...COLLECTION, 'V8.GC_SCAVENGER', 'V8.GC_MARK_COMPACTOR', 'V8.GCIncrementalMarking']);

export function parseTrace(bytes: Uint8Array): TraceEvent[] {
  return (JSON.parse(new TextDecoder().decode(bytes)) as { traceEvents: TraceEvent[] }).traceEvents;
}

const threadOf = (event: TraceEvent): string => `${event.pid}/${event.tid}`;

/** Threads on which an AudioWorklet processor ran. */
export function audioThreads(events: readonly TraceEvent[]): Set<string> {
  return new Set(events.filter((event) => event.name === PROCESS).map(threadOf));
}

/** Duration of every call of an AudioWorklet node's process(), the browser's own handling round it included, ms. */
export function processMs(events: readonly TraceEvent[]): number[] {
  return events
    .filter((event) => event.name === PROCESS && event.dur !== undefined)
    .map((event) => (event.dur ?? 0) / 1000);
}

export interface Garbage {
  count: number;
  /** all pauses together, and the longest */
  totalMs: number;
  longestMs: number;
}

/** Garbage collections on the audio threads. @param threads where the events themselves don't tell */
export function audioGarbage(
  events: readonly TraceEvent[],
  threads: ReadonlySet<string> = audioThreads(events),
): Garbage {
  const own = events.filter((event) => threads.has(threadOf(event)));
  const pauses = outermost(own.filter((event) => GC.has(event.name))).map((span) => (span.endUs - span.startUs) / 1000);
  return {
    count: own.filter((event) => COLLECTION.has(event.name)).length,
    totalMs: pauses.reduce((sum, ms) => sum + ms, 0),
    longestMs: pauses.reduce((most, ms) => Math.max(most, ms), 0),
  };
}

interface Span {
  startUs: number;
  endUs: number;
}

/** Complete events as spans, those inside another of the same thread left out; threads are expected one at a time. */
function outermost(events: readonly TraceEvent[]): Span[] {
  const sorted = events.filter((event) => event.ph === 'X' && event.dur !== undefined).sort((a, b) => a.ts - b.ts);
  const spans: Span[] = [];
  for (const event of sorted) {
    const last = spans.at(-1);
    const endUs = event.ts + (event.dur ?? 0);
    if (last && event.ts < last.endUs) last.endUs = Math.max(last.endUs, endUs);
    else spans.push({ startUs: event.ts, endUs });
  }
  return spans;
}

/**
 * Script time on the page's main thread per animation frame: all outermost script from one frame's callbacks to the
 * next one's, so message handlers between two frames count for the frame that follows them.
 * @returns one value per frame, ms; the busiest thread that fires animation frames is taken as the page's
 */
export function scriptMsPerFrame(events: readonly TraceEvent[]): number[] {
  const frames = new Map<string, number[]>();
  for (const event of events) {
    if (event.name !== FRAME || event.ph !== 'X') continue;
    const thread = threadOf(event);
    const ends = frames.get(thread) ?? [];
    ends.push(event.ts + (event.dur ?? 0));
    frames.set(thread, ends);
  }
  const main = [...frames].sort((a, b) => b[1].length - a[1].length)[0];
  if (!main) return [];
  const script = outermost(events.filter((event) => SCRIPT.has(event.name) && threadOf(event) === main[0]));
  // several callbacks of one frame follow each other at once: they are one frame
  const ends = main[1].sort((a, b) => a - b).filter((end, i, all) => i === all.length - 1 || all[i + 1] - end > 4000);
  const perFrame: number[] = [];
  let at = 0;
  for (let frame = 0; frame < ends.length; frame++) {
    let us = 0;
    while (at < script.length && script[at].startUs < ends[frame]) {
      us += script[at].endUs - script[at].startUs;
      at++;
    }
    // what ran before the first frame is start-up
    if (frame > 0) perFrame.push(us / 1000);
  }
  return perFrame;
}

/** The value below which `share` (0…1) of the values lie, nearest rank; NaN for none. */
export function percentile(values: readonly number[], share: number): number {
  if (values.length === 0) return Number.NaN;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(share * sorted.length) - 1))];
}
