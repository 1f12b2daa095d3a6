/** The real recordings that may lie beside the project; tests that use them say so when they are not there. */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const folder = fileURLToPath(new URL('../../../../shared/real/', import.meta.url));

export interface RealRecording {
  file: string;
  sampleRate: number;
  class: 'firm' | 'conflict' | 'weak' | 'no-answer' | 'groove';
  delaySamples?: number;
  toleranceSamples?: number;
  polarity?: 'same' | 'inverted';
  /** of a groove: each drum's own, and the share of its hits with the same polarity */
  perDrum?: Record<string, { delaySamples: number; sameShare: number }>;
}

export const REAL_ABSENT = 'the real recordings (../shared/real) are not here';
export const realRecordingsHere = existsSync(`${folder}truth.json`);

export function realPath(file: string): string {
  return `${folder}${file}`;
}

export function realRecordings(): RealRecording[] {
  return JSON.parse(readFileSync(`${folder}truth.json`, 'utf8')) as RealRecording[];
}
