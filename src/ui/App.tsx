/** The whole page: its head, the screen that is up, what lies over it; keys, dropped files, lights. */
import { type JSX, Show } from 'solid-js';
import { type AppParts, createApp } from './page/createApp';
import { createDropTarget, sortDropped } from './page/createDropTarget';
import { createFocusKeeper } from './page/createFocusKeeper';
import { createShortcuts } from './page/createShortcuts';
import { Followers } from './page/Followers';
import { Head } from './page/Head';
import { KitNotes } from './page/KitNotes';
import { NewVersion } from './page/NewVersion';
import { pageCommands } from './page/pageCommands';
import { OverScreen, Screen } from './page/Screen';
import { AppScope } from './shared/appScope';
import { ProblemNote } from './sources/ProblemNote';

export function App(props: AppParts): JSX.Element {
  const app = createApp(props);
  const { meter, settings, parts, over, setOver, help } = app;
  const kit = parts.kit.here;
  const commands = pageCommands(app);
  createShortcuts({
    off: help,
    keysOn: settings.keysOn,
    act: (command) => commands[command](),
    holding: app.setHolding,
    history() {
      const shelf = kit()?.shelf;
      return shelf?.sheet() ? shelf : null;
    },
  });
  createFocusKeeper();
  /** two channels are a pair; more tracks are a take, and so is a folder */
  function open(files: File[], folder: boolean): void {
    if (files.length <= 2 && meter.page() !== 'take' && !(folder && files.length !== 1)) {
      meter.offerFiles(files);
      return;
    }
    meter.go('take');
    void parts.take.fetch().then((it) => (folder ? it?.take.readFolder(files) : it?.take.read(files)));
  }
  const dropping = createDropTarget({
    onFiles(files, folder) {
      setOver(null);
      const dropped = sortDropped(files);
      if ('recordings' in dropped) return open(dropped.recordings, folder);
      meter.go('kit');
      void parts.kit.fetch().then((it) => it?.take(dropped.sheet));
    },
  });
  return (
    <AppScope.Provider value={app}>
      <div
        class="page"
        data-page={meter.page()}
        data-run={meter.run()}
        data-opening={String(meter.opening())}
        data-round={String((kit()?.round.pair() ?? null) !== null)}
        inert={over() !== null}
      >
        <Head />
        <ProblemNote />
        <NewVersion />
        <KitNotes />
        <Screen />
      </div>
      <OverScreen />
      <Followers />
      <Show when={dropping()}>
        <div class="drop-note">Drop one stereo file, two mono files, or all tracks of a take</div>
      </Show>
    </AppScope.Provider>
  );
}
