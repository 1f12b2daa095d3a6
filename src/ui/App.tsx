/** The whole page: which screen is up, keys, dropped files, lights. */
import { batch, createEffect, createSignal, type JSX, Match, onCleanup, onMount, Show, Switch } from 'solid-js';
import type { Meter } from '../state/meter';
import { LIGHTS, type Settings } from '../state/settings';
import { AppScope } from './app';
import { CallOut } from './CallOut';
import { Connect } from './Connect';
import { DrumStep } from './drumStep';
import { Head } from './Head';
import { Help } from './Help';
import { Identify } from './Identify';
import { type Command, commandOf, isTyping } from './keys';
import { MeterPage } from './MeterPage';
import { Offset } from './Offset';
import { ProblemNote } from './ProblemNote';
import { Recording } from './Recording';
import { Start } from './Start';
import { Why } from './Why';

function focusOn(id: string): void {
  document.getElementById(id)?.focus();
}

export function App(props: { meter: Meter; settings: Settings }): JSX.Element {
  const { meter, settings } = props;
  const [callOut, setCallOut] = createSignal(false);
  const [why, setWhy] = createSignal(false);
  const [help, setHelp] = createSignal(false);
  const [dropping, setDropping] = createSignal(false);
  const [inkVersion, setInkVersion] = createSignal(0);
  const dim = window.matchMedia('(prefers-color-scheme: dark)');

  const relight = (): void => {
    const dark = settings.lights() === 'down' || (settings.lights() === 'auto' && dim.matches);
    document.documentElement.dataset.paper = dark ? 'dark' : 'light';
    setInkVersion((n) => n + 1);
  };
  createEffect(relight);
  // another page begins at its top, not where the last one was scrolled to
  createEffect(() => {
    meter.page();
    window.scrollTo(0, 0);
  });

  const onMeter = (act: () => void): void => {
    if (meter.page() === 'meter') act();
  };
  const drumStep = new DrumStep();
  const stepDrum = (): void => {
    const reading = meter.reading();
    if (reading && reading.drums.length > 1) meter.chooseDrum(drumStep.next(reading, performance.now()));
  };
  const act: Record<Command, () => void> = {
    hold: () => onMeter(() => meter.hold(!meter.held())),
    'start-over': () => onMeter(meter.startOver),
    swap: () => onMeter(meter.swap),
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
    const command = commandOf(
      { key, ctrlKey, metaKey, altKey, repeat, typing: isTyping(target as HTMLInputElement | null) },
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
    meter.offerFiles([...(event.dataTransfer?.files ?? [])]);
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
    <AppScope.Provider value={{ meter, settings, callOut, setCallOut, setWhy, help, setHelp, inkVersion }}>
      <div
        class="page"
        data-page={meter.page()}
        data-run={meter.run()}
        data-opening={String(meter.opening())}
        inert={callOut() || why()}
      >
        <Head />
        <ProblemNote />
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
