/** A group of microphones on one drum, from its pairs' readings: what A+B+… comes to in one low octave. */
import { LOW_OCTAVES_HZ } from '../../reading/bands';
import { countedTaken, type KitSheet, type Taken } from '../document/model';
import { bestPolarities, sumOfDb } from '../network/groupSum';
import { switchesDiffer } from '../pair/asItStands';
import { octaveOf } from '../pair/lowOctave';

/** The microphones meant for one drum, added up in one low octave of the drum, levels equal, with no delay between them. */
export interface DrumGroup {
  drum: string;
  microphones: string[];
  /** pairs of microphones whose low octave wasn't read together yet; then the rest is null */
  missing: [string, string][];
  /** the octave, Hz: the octave that most of the pairs call the drum's low octave, of those that all of them carry */
  lowHz: number | null;
  highHz: number | null;
  /** whose polarity to turn for the fullest sum: the fewest of those that give it; null as well where no octave is common to all */
  turn: string[] | null;
  /** what that gives, dB over the present set of polarities */
  gainDb: number | null;
  /** what the kit's choice of switches gives, dB over the present set */
  choiceDb: number | null;
  /** the readings come from different runs: the hits weren't the same */
  differentHits: boolean;
}

/** Two are a pair, and the pair's own reading says it. */
export const LEAST_GROUP = 3;

interface Edge {
  i: number;
  j: number;
  taken: Taken;
  /** the two switches stand otherwise than at the reading */
  turned: boolean;
}

/** How alike the microphones are, two by two, in the octave that they are added up in. */
export interface GroupReadings {
  microphones: string[];
  missing: DrumGroup['missing'];
  edges: Edge[];
  /** place in LOW_OCTAVES_HZ; null: none is common to all */
  band: number | null;
  /** Re γ, by the switches as they stand */
  matrix: number[][] | null;
}

export function groupReadings(sheet: KitSheet, drum: string): GroupReadings {
  const microphones = sheet.microphones.filter((one) => one.drum === drum).map(({ id }) => id);
  const missing: [string, string][] = [];
  const edges: Edge[] = [];
  for (const [i, p] of microphones.entries())
    for (const [j, q] of microphones.entries()) {
      if (j <= i) continue;
      const pair = sheet.pairs.find(
        (one) => one.drum === drum && ((one.a === p && one.b === q) || (one.a === q && one.b === p)),
      );
      const taken = pair ? countedTaken(pair) : null;
      if (!pair || taken === null || LOW_OCTAVES_HZ.every((_, k) => coherencyIn(taken, k) === null))
        missing.push([p, q]);
      else edges.push({ i, j, taken, turned: switchesDiffer(sheet, pair, taken) });
    }
  const band = missing.length === 0 ? commonOctave(edges) : null;
  const matrix = band === null ? null : coherencies(microphones.length, edges, band);
  return { microphones, missing, edges, band, matrix };
}

/** @param invert ids of microphones whose switch the kit would change */
export function groupOf(sheet: KitSheet, drum: string, invert: readonly string[] = []): DrumGroup {
  const { microphones, missing, edges, band, matrix } = groupReadings(sheet, drum);
  const best = matrix && bestPolarities(matrix);
  const signs = microphones.map((id) => (invert.includes(id) ? -1 : 1));
  const lowHz = band === null ? null : (LOW_OCTAVES_HZ[band] as number);
  return {
    drum,
    microphones,
    missing,
    lowHz,
    highHz: lowHz === null ? null : 2 * lowHz,
    turn: best ? microphones.filter((_, i) => best.turn[i] === -1) : null,
    gainDb: best ? best.gainDb : null,
    choiceDb: best && matrix ? sumOfDb(matrix, signs) - best.presentDb : null,
    differentHits: new Set(edges.map(({ taken }) => taken.run)).size > 1,
  };
}

/** Re γ in octave k; a sheet of version 1 knows it of the pair's own octave only. */
function coherencyIn(taken: Taken, k: number): number | null {
  return taken.octaveCoherency[k] ?? (isOwnBand(taken, k) ? taken.lowCoherency : null);
}

/** Is octave k what the pair calls the drum's low octave? */
const isOwnBand = ({ fullerLowHz }: Taken, k: number): boolean => octaveOf(fullerLowHz) === k;

/** The octave that most pairs call their own, of those that all of them carry; the lowest of equal ones. */
function commonOctave(edges: readonly Edge[]): number | null {
  let found: number | null = null;
  let most = 0;
  for (const k of LOW_OCTAVES_HZ.keys()) {
    if (edges.some(({ taken }) => coherencyIn(taken, k) === null)) continue;
    const own = edges.filter(({ taken }) => isOwnBand(taken, k)).length;
    if (own > most) [found, most] = [k, own];
  }
  return found;
}

function coherencies(n: number, edges: readonly Edge[], band: number): number[][] {
  const matrix = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)));
  for (const { i, j, taken, turned } of edges) {
    const re = (coherencyIn(taken, band) as number) * (turned ? -1 : 1);
    (matrix[i] as number[])[j] = re;
    (matrix[j] as number[])[i] = re;
  }
  return matrix;
}
