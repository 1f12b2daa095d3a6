/** The hand-over: the sheet as it prints, and the ways to send it on. */
import { type JSX, Show } from 'solid-js';
import { sheetCsv } from '../../sheet/print/csv';
import { AllKitSums } from '../kit/KitSums';
import { useKit } from '../kit/useKit';
import { useApp } from '../shared/appScope';
import { Press } from '../shared/Press';
import { download, fileName } from './download';
import { HandOverSheet } from './HandOverSheet';
import './print.css';
import './paper.css';

export function HandOverPage(): JSX.Element {
  const { meter, sum, showSum } = useApp();
  const { shelf, exportFile } = useKit();
  return (
    <main class="hand-over">
      <div class="presses no-print">
        <button type="button" class="press strong" data-command="print" onClick={() => window.print()}>
          Print, or save as PDF
        </button>
        <button
          type="button"
          class="press"
          data-command="export-csv"
          onClick={() => {
            const sheet = shelf.sheet();
            if (sheet) download(`${fileName(sheet.name)}.csv`, sheetCsv(sheet), 'text/csv');
          }}
        >
          For a spreadsheet (CSV)
        </button>
        <button type="button" class="press" data-command="export-kit" onClick={() => exportFile()}>
          The sheet’s file (JSON)
        </button>
        <Press of="sums" onPress={() => showSum(sum() === null ? 'all' : null)}>
          How it comes about
        </Press>
        <button type="button" class="press" data-command="kit" onClick={() => meter.go('kit')}>
          Back to the kit
        </button>
      </div>
      <Show when={shelf.sheet()} fallback={<p>No kit is open.</p>}>
        {(sheet) => (
          <>
            <HandOverSheet sheet={sheet()} />
            <Show when={sum() !== null}>
              <AllKitSums sheet={sheet()} />
            </Show>
          </>
        )}
      </Show>
    </main>
  );
}
