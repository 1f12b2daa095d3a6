/** The demo kit: its list of scenes, and their audio. */
import { readWav } from '../files/readWav';
import type { DemoScene, ProblemError } from './link';
import { problem } from './problems';
import { type Recording, toAudioBuffer } from './recording/audioBuffer';

const LIST = 'kit.json';

/** @throws ProblemError `demo-missing` */
export async function listScenes(): Promise<DemoScene[]> {
  const found: unknown = await (await fetchFile(LIST)).json().catch(() => null);
  const list = Array.isArray(found) ? found : (found as { scenes?: unknown } | null)?.scenes;
  if (!Array.isArray(list)) throw missing();
  return list as DemoScene[];
}

/** @throws ProblemError `demo-missing` */
export async function loadScene(scene: DemoScene): Promise<AudioBuffer> {
  const bytes = await (await fetchFile(scene.file)).arrayBuffer().catch(() => {
    throw missing();
  });
  let recording: Recording;
  try {
    const wav = readWav(new Uint8Array(bytes));
    recording = {
      label: scene.title,
      sampleRate: wav.sampleRate,
      frames: wav.frames,
      gaps: [],
      readInto(fromFrame, a, b) {
        wav.readInto(1, fromFrame, b);
        return wav.readInto(0, fromFrame, a);
      },
    };
  } catch {
    throw missing();
  }
  return toAudioBuffer(recording);
}

async function fetchFile(name: string): Promise<Response> {
  const response = await fetch(`./${name}`).catch(() => {
    throw missing();
  });
  if (!response.ok) throw missing();
  return response;
}

function missing(): ProblemError {
  return problem(
    'demo-missing',
    'The example kit could not be loaded from this page’s server; check that the server is running, then reload the page.',
  );
}
