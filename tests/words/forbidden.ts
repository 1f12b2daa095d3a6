/** Words that don't belong on the screen, each with its reason and with what is said instead. */
export interface Forbidden {
  word: RegExp;
  reason: string;
  instead: string;
  /** sentences in which the word means something else */
  fine?: readonly string[];
  /** source files that still have it: to be emptied, and refused here as soon as they no longer have it */
  todo?: readonly string[];
}

export const FORBIDDEN: readonly Forbidden[] = [
  {
    word: /\bwitness/i,
    reason: 'coined: nobody calls a measurement that',
    instead: 'name what is measured: the start of the hit, its shape',
  },
  {
    word: /\bwish(es)?\b/i,
    reason: 'coined: microphones wish for nothing',
    instead: 'what the pair is fuller with',
  },
  {
    word: /in the running/i,
    reason: 'says nothing at a kit',
    instead: 'count, agree',
  },
  {
    word: /\blow band\b/i,
    reason: 'one octave has one name',
    instead: 'the drum’s low octave',
  },
  {
    word: /\bown low octave\b/i,
    reason: 'one octave has one name',
    instead: 'the drum’s low octave',
  },
  {
    word: /\blow[ -]end\b(?! driver)/i,
    reason: 'the octave has a name; of a microphone: what it picks up',
    instead: 'the drum’s low octave; only the lows',
  },
  {
    word: /\bnudge/i,
    reason: 'says neither which way nor how',
    instead: 'delay … by … in the mix',
  },
  {
    word: /\b(scenes?|demo)\b/i,
    reason: 'a word of the program’s makers; a person sees recordings of an example kit',
    instead: 'example',
  },
  {
    word: /\bvoicing\b/i,
    reason: 'a switch at a microphone is called otherwise',
    instead: 'contour',
  },
  {
    word: /^listen$|^listen to a |\bturn Listen\b|\blistening:/i,
    reason: 'the meter listens too: as a label or a state it leaves open who does',
    instead: 'Hear it; no answer yet',
  },
  {
    word: /\btrue (to|it is)\b/i,
    reason: 'a length is accurate, not true',
    instead: 'accurate to ±…',
  },
  {
    word: /\brepeats within\b/i,
    reason: 'coined',
    instead: 'hit-to-hit spread',
  },
  {
    word: /\b(a|the|this|each|every|same|another) takes?\b/i,
    reason: 'a take is a recorded performance, no run of the meter',
    instead: 'reading',
    fine: [
      'A take already recorded',
      'The two files have different rates ({…} and {…} Hz); export both at one rate from the same take.',
      '{…} and {…} have different rates ({…} and {…} Hz); export both at one rate from the same take.',
      'The take can’t be read ({…}); the files are unchanged.',
      'there is no audio file in {…}; name a folder with the take’s tracks, WAV or FLAC.',
      'Drop one stereo file, two mono files, or all tracks of a take',
      'The take’s tracks',
      '{…}: {…}, {…} of the take',
      'Back to the take',
    ],
  },
  {
    word: /\bwill come from\b/i,
    reason: 'translated',
    instead: 'No timing here; go by the sum',
  },
  {
    word: /\b(arrival|sum) says\b/i,
    reason: 'a measurement says nothing: the meter does',
    instead: 'first push and sum disagree',
  },
  {
    word: /\b(arrival gap|a gap of)\b/i,
    reason: 'coined',
    instead: 'distance, delay',
  },
  {
    word: /\banew\b/i,
    reason: 'translated',
    instead: 'again',
  },
  {
    word: /\btold of\b|\bturned over\b|(switch|,|\}) turned\b/i,
    reason: 'translated: polarity is inverted, a switch is pressed',
    instead: 'inverted',
  },
  {
    word: /\bhang together\b/i,
    reason: 'translated',
    instead: 'are linked by readings',
  },
  {
    word: /\bfault of its own\b/i,
    reason: 'translated',
    instead: 'stopped by an error',
  },
  {
    word: /\bphase\b/i,
    reason: 'phase turns with frequency; a switch inverts polarity',
    instead: 'polarity',
  },
  {
    word: /\bover all\b/i,
    reason: 'the adverb is one word',
    instead: 'overall',
  },
  {
    word: /\bon the move\b/i,
    reason: 'said of people',
    instead: 'a mic is being moved',
  },
  {
    word: /\bask for (the|one|single)\b/i,
    reason: 'translated',
    instead: 'have the drum hit again; have just one drum hit',
  },
  {
    word: /\bsecond look\b|\blook at a second time\b/i,
    reason: 'one term for one thing',
    instead: 'recheck',
  },
  {
    word: /\bsub-?kick\b|\blow-end driver\b/i,
    reason: 'a brand; a word that nobody says',
    instead: 'speaker as mic',
  },
  {
    word: /\bfarther\b/i,
    reason: 'one pair of words for a distance',
    instead: 'further, closer',
  },
  {
    word: /\blevel with\b/i,
    reason: 'a level is in dB',
    instead: 'at the same distance as',
  },
  {
    word: /\bstor(ed?|ing)\b/i,
    reason: 'one term for one thing',
    instead: 'saved',
  },
  {
    word: /\b(un)?sure\b/i,
    reason: 'a person is sure, a reading is certain',
    instead: 'certain, uncertain',
  },
  {
    word: /\bcall-out\b/i,
    reason: 'nobody knows what it is',
    instead: 'big display',
  },
  {
    word: /\bbit for bit\b|\bsample for sample\b|\b(are|is) one signal\b/i,
    reason: 'one term for one thing',
    instead: 'A and B carry the same signal',
  },
  {
    word: /\btaken? (it )?out\b|\boffset removed\b/i,
    reason: 'said of an offset it reads either way',
    instead: 'corrected',
  },
  {
    word: /\bstruck\b/i,
    reason: 'translated',
    instead: 'hit',
  },
  {
    word: /\b(stronger|weaker)\b/i,
    reason: 'one pair of words for a sum',
    instead: 'fuller, thinner',
  },
  {
    word: /\ba flip\b|^flipped\b/i,
    reason: 'one term for one thing',
    instead: 'invert, inverted',
  },
  {
    word: /\b(advised|the recommended)\b/i,
    reason: 'one term for one thing',
    instead: 'recommended',
  },
  {
    word: /\S later in the mix\b/i,
    reason: 'reads as an arrival that is later',
    instead: 'delay … by … in the mix',
  },
  {
    word: /\bmeter[’']s invert\b/i,
    reason: 'coined',
    instead: '“Invert B here” on, off',
  },
  {
    word: /\blicensed practice\b/i,
    reason: 'nobody says it',
    instead: 'the qualified people on site',
  },
  {
    word: /\blights\b/i,
    reason: 'in a venue those are the house lights',
    instead: 'theme',
  },
  {
    word: /\w'(s|t|re|ll|d|ve)\b/i,
    reason: 'one apostrophe throughout',
    instead: '’',
  },
];
