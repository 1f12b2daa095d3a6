/** The browser's own voices. Only those of this computer: others would send what is said to a server. */

export interface Speech {
  /** names, those that speak English first; may be empty */
  voices(): string[];
  /** @returns ends it */
  onVoices(changed: () => void): () => void;
  /** what is being said is broken off: the newest counts. @param level 0…1. @param voice by its name; null: the first */
  say(text: string, level: number, voice: string | null): void;
  hush(): void;
}

/** null where the browser has no speech at all */
export function browserSpeech(): Speech | null {
  const { speechSynthesis: synthesis } = globalThis as { speechSynthesis?: SpeechSynthesis };
  if (!synthesis || typeof SpeechSynthesisUtterance === 'undefined') return null;
  const local = (): SpeechSynthesisVoice[] => {
    const all = synthesis.getVoices().filter(({ localService }) => localService);
    const english = all.filter(({ lang }) => /^en\b/i.test(lang));
    // what is said is English
    return english.length > 0 ? english : all;
  };
  return {
    voices: () => local().map(({ name }) => name),
    onVoices(changed) {
      synthesis.addEventListener('voiceschanged', changed);
      return () => synthesis.removeEventListener('voiceschanged', changed);
    },
    say(text, level, voice) {
      const voices = local();
      const chosen = voices.find(({ name }) => name === voice) ?? voices.find((it) => it.default) ?? voices[0];
      // the browser's own choice may be a voice of a server
      if (!chosen) return;
      const utterance = new SpeechSynthesisUtterance(text);
      utterance.voice = chosen;
      utterance.lang = chosen.lang;
      utterance.volume = level;
      synthesis.cancel();
      synthesis.speak(utterance);
    },
    hush: () => synthesis.cancel(),
  };
}
