/** Cautions that stand in more than one place, word for word. */

/** Where a sentence sends hands to a stand, a cable or a switch at the kit. */
export const HANDS =
  'Stop the drummer before anyone touches a cable or a stand. Monitors down before you plug or patch; phantom power off first for a ribbon or a speaker used as a mic.';

/** Where something is patched or plugged, in one line. */
export const PATCH_CALL =
  'Drummer stopped and monitors down before you patch. Phantom power off before you plug or patch a ribbon or a speaker used as a mic.';
