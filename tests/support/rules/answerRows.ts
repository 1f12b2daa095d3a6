/** Rows of a table on a drum's answer: what was heard, and which witness answers what. */
import { expect } from 'vitest';
import { decisionOf, type Heard, type Said } from './rules';

export interface AnswerRow extends Heard {
  name: string;
  /** null: no answer */
  method: Said['method'];
  /** 1000 unless told */
  delayUs?: number;
  /** + unless told */
  sign?: number;
  contradiction?: boolean;
}

export function checkAnswer(row: AnswerRow): void {
  const { hits, fit, stack, method, delayUs = 1000, sign = 1, contradiction = false } = row;
  const said = decisionOf({ hits, ...(fit && { fit }), ...(stack && { stack }) });
  expect(said.method).toBe(method);
  expect(said.sign).toBe(method === null ? 0 : sign);
  expect(said.contradiction).toBe(contradiction);
  if (method !== null) expect(said.delayUs).toBeCloseTo(delayUs, 6);
}
