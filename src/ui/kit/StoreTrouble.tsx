import { type JSX, onCleanup, Show } from 'solid-js';
import { createLeaveGuard } from '../page/createLeaveGuard';
import { onComeBack } from '../page/onComeBack';
import { useKit } from './useKit';

/** how often it is looked whether what is said to be saved is in the database, ms */
const LOOK_MS = 1500;

/** Storage that is refused or full, and another tab that was faster: said at once, on every page of the kit and of the round. */
export function StoreTrouble(): JSX.Element {
  const { shelf, exportFile } = useKit();
  createLeaveGuard(() => shelf.sheet() !== null && shelf.storing() === 'not-stored');
  onComeBack(() => void shelf.lookAgain());
  const looking = setInterval(() => void shelf.lookWhetherSaved(), LOOK_MS);
  onCleanup(() => clearInterval(looking));
  return (
    <div role="alert" class="store-trouble">
      <Show when={shelf.conflict()}>
        <div class="kit-trouble" data-trouble="conflict">
          <p>This kit was changed in another tab. Nothing is saved here until you choose.</p>
          <button type="button" class="press" data-command="take-theirs" onClick={() => void shelf.takeTheirs()}>
            Open the other tab’s version
          </button>
          <button type="button" class="press" data-command="keep-copy" onClick={() => void shelf.keepAsCopy()}>
            Keep this one as a copy
          </button>
        </div>
      </Show>
      <Show when={shelf.trouble() !== ''}>
        <div class="kit-trouble" data-trouble="store">
          <p>{shelf.trouble()}</p>
          <Show when={shelf.sheet()}>
            <button type="button" class="press" onClick={() => exportFile()}>
              Export the file
            </button>
            <Show when={shelf.storing() === 'not-stored'}>
              <button type="button" class="press" data-command="drop-kit" onClick={() => void shelf.drop()}>
                Close without saving
              </button>
            </Show>
          </Show>
          <button type="button" class="press" onClick={() => shelf.dismissTrouble()}>
            Close this note
          </button>
        </div>
      </Show>
    </div>
  );
}
