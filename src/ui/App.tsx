/** The whole page: which screen is up, keys, dropped files, lights. */
import {
  batch,
  createEffect,
  createSignal,
  type JSX,
  Match,
  onCleanup,
  onMount,
  Show,
  Switch,
  untrack,
} from 'solid-js';
import type { Meter, Page } from '../state/meter/meter';
import { LIGHTS, type Settings } from '../state/meter/settings';
import { DrumStep } from './meter/drumStep';
import { PartOver } from './parts/PartOver';
import { PartPage } from './parts/PartPage';
import { PartProblem } from './parts/PartProblem';
import { AppScope, type Parts } from './shared/appScope';
import { CautionList } from './shared/Cautions';
import { Head } from './shared/Head';
import { type Command, commandOf, isButton, isTyping } from './shared/keys';
import { ProblemNote } from './sources/ProblemNote';
import { Start } from './sources/Start';

function focusOn(id: string): void {
  document.getElementById(id)?.focus();
}

export interface AppParts {
  meter: Meter;
  settings: Settings;
  parts: Parts;
}

/** as a sentence begins with it */
const KIT_NAME = 'The kit sheet';

const LIVE_PAGES: readonly Page[] = ['connect', 'identify', 'offset'];

export function App(props: AppParts): JSX.Element {
  const { meter, settings, parts } = props;
  const kit = parts.kit.here;
  const [callOut, setCallOut] = createSignal(false);
  const [why, setWhy] = createSignal(false);
  const [help, setHelp] = createSignal(false);
  const [dropping, setDropping] = createSignal(false);
  const [inkVersion, setInkVersion] = createSignal(0);
  const dim = window.matchMedia('(prefers-color-scheme: dark)');

  /** the page before the kit's, by whatever way it was left */
  let cameFrom: Page = 'start';
  const onKit = (): boolean => meter.page() === 'kit' || meter.page() === 'hand-over';

  const relight = (): void => {
    const dark = settings.lights() === 'down' || (settings.lights() === 'auto' && dim.matches);
    document.documentElement.dataset.paper = dark ? 'dark' : 'light';
    setInkVersion((n) => n + 1);
  };
  createEffect(relight);
  // fetched beside the source, not after it
  createEffect(() => {
    if (meter.opening()) void parts.meter.fetch();
  });
  // another page begins at its top, not where the last one was scrolled to
  createEffect(() => {
    const page = meter.page();
    window.scrollTo(0, 0);
    if (!untrack(onKit)) cameFrom = page;
    // what lies over the meter goes with it
    if (page !== 'meter') batch(() => [setCallOut(false), setWhy(false)]);
  });
  // and makes room for a note that is to be written
  createEffect(() => {
    if (kit()?.leaving()) batch(() => [setCallOut(false), setWhy(false)]);
  });

  const onMeter = (act: () => void): void => {
    if (meter.page() === 'meter') act();
  };
  const startOver = (): void => {
    kit()?.round.anew();
    meter.startOver();
  };
  const swap = (): void => {
    if (!kit()?.round.refusesSwap()) meter.swap();
  };
  /** To the kit, and from there back to where it was left; not out of the middle of telling the inputs apart. */
  const kitAndBack = (): void => {
    const page = meter.page();
    if (page === 'identify' || page === 'offset') return;
    const back = cameFrom === 'meter' && meter.source() === null ? 'start' : cameFrom;
    meter.go(page === 'kit' ? back : 'kit');
  };
  const drumStep = new DrumStep();
  const stepDrum = (): void => {
    const reading = meter.reading();
    if (reading && reading.drums.length > 1) meter.chooseDrum(drumStep.next(reading, performance.now()));
  };
  const act: Record<Command, () => void> = {
    hold: () => onMeter(() => meter.hold(!meter.held())),
    'start-over': () => onMeter(startOver),
    swap: () => onMeter(swap),
    'invert-b': () => onMeter(() => meter.setInvertB(!meter.invertB())),
    kind: () => onMeter(() => focusOn('pair-kind')),
    temperature: () => onMeter(() => focusOn('temperature')),
    'band-0': () => settings.setTraceBand(0),
    'band-1': () => settings.setTraceBand(1),
    'band-2': () => settings.setTraceBand(2),
    'band-3': () => settings.setTraceBand(3),
    'band-4': () => settings.setTraceBand(4),
    'call-out': () => onMeter(() => batch(() => [setWhy(false), setCallOut(!callOut())])),
    why: () => onMeter(() => batch(() => [setCallOut(false), setWhy(!why())])),
    drum: () => onMeter(stepDrum),
    help: () => setHelp(true),
    lights: () => settings.setLights(LIGHTS[(LIGHTS.indexOf(settings.lights()) + 1) % LIGHTS.length] ?? 'auto'),
    listen: () => onMeter(() => focusOn('listen')),
    sources: () => onMeter(() => void meter.leave()),
    kit: () => batch(() => [setCallOut(false), setWhy(false), kitAndBack()]),
    accept: () => kit()?.act.accept(),
    'accept-unsure': () => kit()?.act['accept-unsure'](),
    'a-inverted': () => kit()?.act['a-inverted'](),
    'b-inverted': () => kit()?.act['b-inverted'](),
    'leave-so': () => kit()?.act['leave-so'](),
    'put-off': () => kit()?.act['put-off'](),
    back: () => {
      if (callOut()) setCallOut(false);
      else if (why()) setWhy(false);
      else if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    },
  };

  const onKey = (event: KeyboardEvent): void => {
    if (help()) return;
    const { key, ctrlKey, metaKey, altKey, repeat } = event;
    const target = event.target instanceof HTMLElement ? event.target : null;
    const typing = isTyping(target as HTMLInputElement | null);
    // what a field's own undo would do belongs to the field
    if ((ctrlKey || metaKey) && !altKey && !typing && key.toLowerCase() === 'z' && kit()?.shelf.sheet()) {
      event.preventDefault();
      if (event.shiftKey) kit()?.shelf.redo();
      else kit()?.shelf.undo();
      return;
    }
    const command = commandOf(
      { key, ctrlKey, metaKey, altKey, repeat, typing, onButton: isButton(target) },
      settings.keysOn(),
    );
    if (command === null) return;
    if (command !== 'back') event.preventDefault();
    act[command]();
  };
  const carriesFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
  const onDragOver = (event: DragEvent): void => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    setDropping(true);
  };
  const onDragLeave = (event: DragEvent): void => {
    if (event.relatedTarget === null) setDropping(false);
  };
  const onDrop = (event: DragEvent): void => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    setDropping(false);
    setCallOut(false);
    setWhy(false);
    const files = [...(event.dataTransfer?.files ?? [])];
    const [sheet] = files;
    if (sheet && files.length === 1 && /\.json$/i.test(sheet.name)) {
      meter.go('kit');
      void parts.kit.fetch().then((it) => it?.take(sheet));
    } else meter.offerFiles(files);
  };

  onMount(() => {
    dim.addEventListener('change', relight);
    window.addEventListener('keydown', onKey);
    window.addEventListener('dragover', onDragOver);
    window.addEventListener('dragleave', onDragLeave);
    window.addEventListener('drop', onDrop);
  });
  onCleanup(() => {
    dim.removeEventListener('change', relight);
    window.removeEventListener('keydown', onKey);
    window.removeEventListener('dragover', onDragOver);
    window.removeEventListener('dragleave', onDragLeave);
    window.removeEventListener('drop', onDrop);
  });

  return (
    <AppScope.Provider
      value={{
        meter,
        settings,
        parts,
        kitAndBack,
        startOver,
        swap,
        callOut,
        setCallOut,
        setWhy,
        help,
        setHelp,
        inkVersion,
      }}
    >
      <div
        class="page"
        data-page={meter.page()}
        data-run={meter.run()}
        data-opening={String(meter.opening())}
        data-round={String((kit()?.round.pair() ?? null) !== null)}
        inert={callOut() || why()}
      >
        <Head />
        <ProblemNote />
        <Show when={!onKit() && parts.kit.missing()}>
          <PartProblem part={parts.kit} name={KIT_NAME} />
        </Show>
        <Show when={kit()} keyed>
          {(it) => <it.StoreTrouble />}
        </Show>
        <Show when={!onKit() && kit()} keyed>
          {(it) => <it.RoundStrip />}
        </Show>
        <Switch>
          <Match when={meter.page() === 'start'}>
            <Start />
          </Match>
          <Match when={LIVE_PAGES.includes(meter.page())}>
            <PartPage part={parts.live} name="The page for live inputs">
              {(it) => <it.LivePages />}
            </PartPage>
          </Match>
          <Match when={meter.page() === 'recording'}>
            <PartPage part={parts.recording} name="The page for recordings">
              {(it) => <it.Recording />}
            </PartPage>
          </Match>
          <Match when={meter.page() === 'meter'}>
            <PartPage part={parts.meter} name="The meter">
              {(it) => <it.MeterPage />}
            </PartPage>
          </Match>
          <Match when={meter.page() === 'kit'}>
            <PartPage part={parts.kit} name={KIT_NAME}>
              {(it) => <it.KitPage />}
            </PartPage>
          </Match>
          <Match when={meter.page() === 'hand-over'}>
            <PartPage part={parts.handOver} name="The hand-over">
              {(it) => <it.HandOverPage />}
            </PartPage>
          </Match>
        </Switch>
      </div>
      <Show when={callOut() && meter.page() === 'meter'}>
        <PartOver part={parts.callOut} name="The call-out view" onClose={() => setCallOut(false)}>
          {(it) => <it.CallOut />}
        </PartOver>
      </Show>
      <Show when={why() && meter.page() === 'meter'}>
        <PartOver part={parts.why} name="The view of the hits" onClose={() => setWhy(false)}>
          {(it) => <it.Why onClose={() => setWhy(false)} />}
        </PartOver>
      </Show>
      <Show when={help()}>
        <PartOver part={parts.help} name="Help" onClose={() => setHelp(false)} instead={<CautionList />}>
          {(it) => <it.Help />}
        </PartOver>
      </Show>
      <Show when={dropping()}>
        <div class="drop-note">Drop one stereo file, or two mono files</div>
      </Show>
    </AppScope.Provider>
  );
}
