/** The whole page: which screen is up, keys, dropped files, lights. */
import {
  batch,
  createEffect,
  createMemo,
  createSignal,
  type JSX,
  Match,
  on,
  onCleanup,
  onMount,
  Show,
  Switch,
} from 'solid-js';
import type { Meter, Page } from '../state/meter/meter';
import { LIGHTS, type Settings } from '../state/meter/settings';
import type { Round } from '../state/round/round';
import type { KitShelf } from '../state/shelf/kitShelf';
import { KitPage, StoreTrouble } from './kit/KitPage';
import { takeFile } from './kit/takeFile';
import { CallOut } from './meter/CallOut';
import { DrumStep } from './meter/drumStep';
import { MeterPage } from './meter/MeterPage';
import { RoundStrip } from './meter/RoundStrip';
import { download, fileName } from './print/download';
import { HandOverPage } from './print/HandOverPage';
import { AppScope } from './shared/app';
import { Head } from './shared/Head';
import { Help } from './shared/Help';
import { type Command, commandOf, isButton, isTyping } from './shared/keys';
import { Connect } from './sources/Connect';
import { Identify } from './sources/Identify';
import { Offset } from './sources/Offset';
import { ProblemNote } from './sources/ProblemNote';
import { Recording } from './sources/Recording';
import { Start } from './sources/Start';
import { Why } from './why/Why';

function focusOn(id: string): void {
  document.getElementById(id)?.focus();
}

export interface AppParts {
  meter: Meter;
  settings: Settings;
  shelf: KitShelf;
  round: Round;
  /** the text of the filled example; rejects where it isn't there */
  exampleText(): Promise<string>;
}

export function App(props: AppParts): JSX.Element {
  const { meter, settings, shelf, round } = props;
  const [callOut, setCallOut] = createSignal(false);
  const [why, setWhy] = createSignal(false);
  const [help, setHelp] = createSignal(false);
  const [kitProblem, setKitProblem] = createSignal('');
  const [leaving, setLeaving] = createSignal(false);
  const [dropping, setDropping] = createSignal(false);
  const [inkVersion, setInkVersion] = createSignal(0);
  const dim = window.matchMedia('(prefers-color-scheme: dark)');

  /** the page before the kit's, by whatever way it was left */
  let cameFrom: Page = 'start';

  const relight = (): void => {
    const dark = settings.lights() === 'down' || (settings.lights() === 'auto' && dim.matches);
    document.documentElement.dataset.paper = dark ? 'dark' : 'light';
    setInkVersion((n) => n + 1);
  };
  createEffect(relight);
  // another page begins at its top, not where the last one was scrolled to
  createEffect(() => {
    const page = meter.page();
    window.scrollTo(0, 0);
    if (page !== 'kit' && page !== 'hand-over') cameFrom = page;
    // what lies over the meter goes with it
    if (page !== 'meter') batch(() => [setCallOut(false), setWhy(false)]);
  });
  // a note belongs to the pair that it was begun for
  const pairInHand = createMemo(() => round.pair()?.id);
  createEffect(on([pairInHand, meter.page], () => setLeaving(false)));

  const onMeter = (act: () => void): void => {
    if (meter.page() === 'meter') act();
  };
  const onRound = (act: () => void): void => {
    if (round.pair() !== null && !leaving()) act();
  };
  const startOver = (): void => {
    round.anew();
    meter.startOver();
  };
  const swap = (): void => {
    if (!round.refusesSwap()) meter.swap();
  };
  const exportFile = (): void => {
    const text = shelf.file();
    if (text !== null) download(`${fileName(shelf.sheet()?.name ?? '')}.kit.json`, text, 'application/json');
  };
  const loadExample = async (): Promise<void> => {
    const text = await props.exampleText().catch(() => null);
    setKitProblem(
      text === null
        ? 'The filled sheet could not be loaded from this page’s server; see that it runs and try again.'
        : await shelf.take(text),
    );
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
    accept: () => onMeter(() => onRound(round.enter)),
    'accept-unsure': () => onMeter(() => onRound(round.acceptUnsure)),
    'a-inverted': () => onMeter(() => onRound(() => round.mode() === 'measure' && round.inverted('a'))),
    'b-inverted': () => onMeter(() => onRound(() => round.mode() === 'measure' && round.inverted('b'))),
    'leave-so': () =>
      onMeter(() =>
        onRound(
          () =>
            round.mode() === 'measure' &&
            !round.patching() &&
            batch(() => [setCallOut(false), setWhy(false), setLeaving(true)]),
        ),
      ),
    'put-off': () => {
      if (meter.page() === 'meter' || meter.page() === 'start') onRound(round.putOff);
    },
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
    if ((ctrlKey || metaKey) && !altKey && !typing && key.toLowerCase() === 'z' && shelf.sheet()) {
      event.preventDefault();
      if (event.shiftKey) shelf.redo();
      else shelf.undo();
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
      void takeFile(sheet, shelf).then(setKitProblem);
    } else meter.offerFiles(files);
  };

  const onLeave = (event: BeforeUnloadEvent): void => {
    if (shelf.sheet() && shelf.storing() === 'not-stored') event.preventDefault();
  };
  const onVisible = (): void => {
    if (document.visibilityState === 'visible') void shelf.lookAgain();
  };

  onMount(() => {
    window.addEventListener('beforeunload', onLeave);
    document.addEventListener('visibilitychange', onVisible);
    dim.addEventListener('change', relight);
    window.addEventListener('keydown', onKey);
    window.addEventListener('dragover', onDragOver);
    window.addEventListener('dragleave', onDragLeave);
    window.addEventListener('drop', onDrop);
  });
  onCleanup(() => {
    window.removeEventListener('beforeunload', onLeave);
    document.removeEventListener('visibilitychange', onVisible);
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
        shelf,
        round,
        leaving,
        setLeaving,
        kitProblem,
        setKitProblem,
        kitAndBack,
        startOver,
        swap,
        exportFile,
        loadExample,
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
        data-round={String(round.pair() !== null)}
        inert={callOut() || why()}
      >
        <Head />
        <ProblemNote />
        <StoreTrouble />
        <Show when={meter.page() !== 'kit' && meter.page() !== 'hand-over'}>
          <RoundStrip />
        </Show>
        <Switch>
          <Match when={meter.page() === 'start'}>
            <Start />
          </Match>
          <Match when={meter.page() === 'connect'}>
            <Connect />
          </Match>
          <Match when={meter.page() === 'recording'}>
            <Recording />
          </Match>
          <Match when={meter.page() === 'identify'}>
            <Identify />
          </Match>
          <Match when={meter.page() === 'offset'}>
            <Offset />
          </Match>
          <Match when={meter.page() === 'meter'}>
            <MeterPage />
          </Match>
          <Match when={meter.page() === 'kit'}>
            <KitPage />
          </Match>
          <Match when={meter.page() === 'hand-over'}>
            <HandOverPage />
          </Match>
        </Switch>
      </div>
      <Show when={callOut() && meter.page() === 'meter'}>
        <CallOut />
      </Show>
      <Show when={why() && meter.page() === 'meter'}>
        <Why onClose={() => setWhy(false)} />
      </Show>
      <Show when={help()}>
        <Help />
      </Show>
      <Show when={dropping()}>
        <div class="drop-note">Drop one stereo file, or two mono files</div>
      </Show>
    </AppScope.Provider>
  );
}
