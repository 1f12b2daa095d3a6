/** Which device is which, and which one stands behind “default”. */

/** What tells one device from another. */
export interface InputIdentity {
  deviceId: string;
  groupId: string;
  label: string;
}

/** ids that stand for some other device of the list */
const ALIASES: readonly string[] = ['', 'default', 'communications'];
export const isAlias = (deviceId: string | undefined): boolean => ALIASES.includes(deviceId ?? '');

/**
 * The device that a name like “default” stands for.
 * @param aliasId as the stream was opened, or as the track says
 * @param listed what the system lists
 * @returns null where the list doesn't tell
 */
export function deviceBehind(aliasId: string, listed: readonly InputIdentity[]): InputIdentity | null {
  const real = listed.filter(({ deviceId }) => !isAlias(deviceId));
  const alias = listed.find(({ deviceId }) => deviceId === aliasId);
  if (alias) {
    // “Default - Name”, whatever the word is in the system's language
    const named = real.filter(({ label }) => label !== '' && alias.label.endsWith(` - ${label}`));
    const grouped = real.filter(({ groupId }) => groupId !== '' && groupId === alias.groupId);
    const both = named.filter((one) => grouped.includes(one));
    const agreeing = named.length > 0 && grouped.length > 0 ? [both] : [named, grouped];
    for (const found of agreeing) if (found.length === 1) return found[0] as InputIdentity;
    if (named.length + grouped.length > 0) return null;
  }
  return real.length === 1 ? (real[0] as InputIdentity) : null;
}
