/** Cautions that stand in more than one place, word for word. */

/** Where a sentence sends hands to a stand, a cable or a switch at the kit. */
export const HANDS =
  'Drummer stopped, hands clear, before anyone touches a cable or a stand. Phantom power off before a ribbon or a speaker used as a mic is plugged or patched, monitors down.';

/** Where something is patched or plugged, in one line. */
export const PATCH_CALL =
  'Phantom power off before a ribbon or a speaker used as a mic is plugged or patched, monitors down, drummer stopped.';
