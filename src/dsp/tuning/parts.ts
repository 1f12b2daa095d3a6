/** What the engine can do without, for a look at what each part is worth (`npm run bench -- ablation`). */
import { fixed } from './fixed';

export const PARTS = fixed({
  /** off: first pushes of the low end aren't looked for, so that no drum is one whose low end leads, and none answers by it */
  lowPush: true,
  /** off: first pushes of the low end sort hits and show moves, but don't answer, and don't contradict the hits' average */
  lowAnswer: true,
  /** off: the single hits' correlation is no witness: it neither answers, backs nor contradicts, and shows no moves */
  waveform: true,
  /** off: no best fit of all attacks: nothing backs or contradicts the first pushes, and no uncertainty is known */
  attackFit: true,
  /** off: the hits aren't averaged where noise hides the first push in each */
  stack: true,
  /** off: where the witnesses don't agree there is no answer */
  likeliest: true,
  /** off: what is likely is an answer although the low end of most hits begins elsewhere */
  deepPushes: true,
  /** off: nobody looks for moves: all hits in the running count alike */
  motion: true,
  /** off: all hits that aren't clipped or one-sided are taken for one drum's */
  drumSorting: true,
  /** off: drums that sound alike aren't parted by their arrivals */
  twoDelays: true,
  /** off: of a drum whose low end leads, hits that something high began count as well */
  twoDrums: true,
  /** off: first pushes stand although unlike microphones bend them for all that can be seen */
  bentPushes: true,
  /** off: a first push between microphones with very unlike tops or low ends stands although no best fit lies near */
  unlikeChannels: true,
  /** off: two witnesses that are sure of different things don't take the answer away: first pushes go before the waveform */
  contradictions: true,
  /** off: a first push that noise may have hidden counts like any other: nothing has to back it, and no average is made for it */
  hiddenPushes: true,
});
export type Parts = typeof PARTS;
