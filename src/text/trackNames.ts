/** Which files of a folder may be tracks: by their names. */

const AUDIO = /\.(wav|wave|bwf|rf64|w64|flac)$/i;

/** Hidden files are none: systems leave copies of a name there that hold no sound. */
export const isAudioName = (name: string): boolean => AUDIO.test(name) && !name.startsWith('.');
