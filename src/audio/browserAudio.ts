/** The audio room's door: everything that the rest of the page may open. What only some sources need is fetched with them. */
import { fetchProgram } from './fetchProgram';
import type { AudioDoor } from './link';
import { openPlayback } from './playback';
import { contextProblem } from './problems';
import { listScenes, loadScene } from './scenes';

const listening = () => fetchProgram(() => import('./listen/program'));
const live = () => fetchProgram(() => import('./live/interfaceInput'));

export const browserAudio: AudioDoor = {
  async listInputs() {
    return (await live()).listInputs();
  },
  async openInterface(deviceId, settings, events) {
    return (await live()).openInterface(deviceId, settings, events);
  },
  async openRecording(files, mode, settings, events) {
    const { openRecording } = await fetchProgram(() => import('./recording/openRecording'));
    return openRecording(files, mode, settings, events);
  },
  listScenes,
  async openLoops(sampleRate, events) {
    const { openPath } = await listening();
    return openPath(sampleRate, null, events).catch((thrown: unknown) => {
      throw contextProblem(thrown, sampleRate);
    });
  },
  async sceneSound(scene) {
    const { loopedSound } = await listening();
    return loopedSound(await loadScene(scene), false, []);
  },
  async openScene(scene, settings, events) {
    const buffer = await loadScene(scene);
    return openPlayback({ label: scene.title, buffer, loop: true }, settings, events);
  },
  async openTakePair(sound, settings, events) {
    const { openTakePair } = await fetchProgram(() => import('./take/openTakePair'));
    return openTakePair(sound, settings, events);
  },
};
