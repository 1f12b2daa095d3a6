/** Bringing a pair here: three ways, what stands in the way, and which device. */
import { createSignal, For, type JSX, onCleanup, onMount, Show } from 'solid-js';
import { useApp } from '../shared/appScope';
import { FirstCautions, PatchCautions } from '../shared/Cautions';
import { PairFields } from '../sources/PairFields';

function WayDrawing(props: { way: 1 | 2 | 3 }): JSX.Element {
  return (
    <svg class="way-drawing" viewBox="0 0 200 84" aria-hidden="true">
      <g class="mark-line">
        <circle cx="16" cy="22" r="11" />
        <circle cx="16" cy="62" r="11" />
        <path d="M27 22H70M27 62H70" />
        <rect x="70" y="8" width={props.way === 1 ? 40 : 52} height="68" rx="3" />
        <path d={props.way === 1 ? 'M110 42H166' : 'M122 22H140V36H166M122 62H140V48H166'} />
        <path d="M166 24H196V60H166Z M160 66H200" />
      </g>
      <g text-anchor="middle">
        <text x="16" y="27">
          A
        </text>
        <text x="16" y="67">
          B
        </text>
        <text x={props.way === 1 ? 90 : 96} y="47">
          {props.way === 1 ? '1 2' : props.way === 2 ? 'desk' : '1…n'}
        </text>
      </g>
    </svg>
  );
}

const WAYS: readonly { way: 1 | 2 | 3; title: string; text: string }[] = [
  {
    way: 1,
    title: 'A small interface',
    text: 'A into input 1, B into input 2. Same gain range, pad and filter on both.',
  },
  {
    way: 2,
    title: 'A desk',
    text: 'The two channels’ direct outs, or two sends at the same level, into inputs 1 and 2. Take them before EQ, gate and compressor, but after the polarity switch: check your desk.',
  },
  {
    way: 3,
    title: 'A larger interface',
    text: 'In the interface’s own mixer, route the two inputs to record channels 1 and 2. Same path for both, no processing.',
  },
];

export function Connect(): JSX.Element {
  const { meter, settings } = useApp();
  onMount(() => void meter.loadInputs());
  onMount(() => {
    const look = (): void => void meter.loadInputs();
    navigator.mediaDevices?.addEventListener('devicechange', look);
    onCleanup(() => navigator.mediaDevices?.removeEventListener('devicechange', look));
  });
  const last = (): string | null => settings.deviceId();
  const isListed = (id: string | null): boolean => meter.inputs().some((d) => d.deviceId === id);
  // before the permission the browser lists nothing: the one used last is asked for all the same
  const unlisted = (): boolean => last() !== null && meter.inputs().length === 0;
  const [chosen, setChosen] = createSignal<string | null | undefined>(undefined);
  const device = (): string | null => {
    const pick = chosen();
    if (pick !== undefined) return pick;
    return isListed(last()) || unlisted() ? last() : null;
  };
  const opening = meter.opening;
  return (
    <main class="connect">
      <h1>Connect two mics</h1>
      <div class="ways">
        <For each={WAYS}>
          {(item) => (
            <section class="way" aria-label={item.title}>
              <WayDrawing way={item.way} />
              <h2>{item.title}</h2>
              <p>{item.text}</p>
            </section>
          )}
        </For>
      </div>
      <section class="device" aria-labelledby="device-title">
        <h2 id="device-title">Choose pair and device</h2>
        <PairFields
          kindId="connect-kind"
          pair={{ kind: settings.kind(), labels: settings.labels(), drum: settings.drum() }}
          onSay={({ kind, labels, drum }) => {
            if (kind !== undefined) meter.setKind(kind);
            labels?.forEach((label, at) => void settings.setLabel(at as 0 | 1, label));
            if (drum !== undefined) settings.setDrum(drum);
          }}
        />
        <PatchCautions />
        <label class="field">
          <span>Input device</span>
          <select
            id="device"
            value={device() ?? ''}
            onChange={(e) => setChosen(e.currentTarget.value === '' ? null : e.currentTarget.value)}
          >
            <option value="">System default</option>
            <Show when={unlisted()}>
              <option value={last() ?? ''}>Last used</option>
            </Show>
            <For each={meter.inputs().filter((d) => d.deviceId !== '')}>
              {(d, i) => <option value={d.deviceId}>{d.label || `Input device ${i() + 1}`}</option>}
            </For>
          </select>
        </label>
        <p class="quiet">
          The browser asks to use the input. Device names appear once you allow it. Sound stays on this computer.
        </p>
        <div class="presses">
          <Show
            when={settings.cautionsSeen()}
            fallback={<p class="quiet">Read the cautions below first, and confirm them.</p>}
          >
            <button
              type="button"
              class="press strong big"
              data-command="open-interface"
              disabled={opening()}
              onClick={() => {
                settings.setDeviceId(device());
                void meter.open({ type: 'interface', deviceId: device() });
              }}
            >
              {opening() ? 'Waiting for the input …' : 'Use this input'}
            </button>
          </Show>
          <button type="button" class="press" data-command="leave" onClick={() => void meter.leave()}>
            Back to the first page
          </button>
        </div>
      </section>
      <FirstCautions />
      <section class="good-to-know" aria-label="Good to know">
        <p>
          <b>No signal?</b> Your DAW may have the device: close it or release the device there, then try again.
        </p>
        <p>
          <b>Why not one device for A and another for B?</b> Two devices run on separate clocks and drift apart; the
          meter would show that as distance.
        </p>
        <p>
          <b>More than two channels?</b> A browser passes on two, and the system decides what is in them: the first two
          alone, the first two with others mixed in, or silence. Set the interface to two channels in the system’s sound
          settings, or choose a stereo pair of it there.
        </p>
      </section>
    </main>
  );
}
