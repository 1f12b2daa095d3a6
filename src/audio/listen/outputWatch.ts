/** Open mics are heard on closed headphones: when those are unplugged, the system may go on with loudspeakers, and tells nobody. */

type Devices = Pick<MediaDevices, 'enumerateDevices' | 'addEventListener' | 'removeEventListener'>;

/**
 * Begins to watch the outputs; returns the function that ends it.
 * @param changed called once, when they aren't those that were there, or nobody can tell
 */
export function watchOutputs(devices: Devices, changed: () => void): () => void {
  let ended = false;
  const end = (): void => {
    ended = true;
    devices.removeEventListener('devicechange', look);
  };
  const tell = (): void => {
    if (ended) return;
    end();
    changed();
  };
  const before = outputsOf(devices);
  const look = async (): Promise<void> => {
    const now = outputsOf(devices);
    const was = await before;
    if (was === null || was !== (await now)) tell();
  };
  devices.addEventListener('devicechange', look);
  return end;
}

/** Told from another list by it; null: it can't be had. A browser that lists no outputs gives all it lists. */
async function outputsOf(devices: Devices): Promise<string | null> {
  try {
    const listed = await devices.enumerateDevices();
    const outputs = listed.filter(({ kind }) => kind === 'audiooutput');
    const those = outputs.length > 0 ? outputs : listed;
    return those
      .map(({ deviceId, label, groupId }) => JSON.stringify([deviceId, label, groupId]))
      .sort()
      .join();
  } catch {
    return null;
  }
}
