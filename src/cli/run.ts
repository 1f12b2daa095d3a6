/** The measuring command without its process: arguments in; text out, and the exit status. */
import { gapsText } from '../files/soundness';
import { MAX_OFFSET_SECONDS } from '../reading/limits';
import { measureSource } from './measure';
import { parseOptions, USAGE, UsageError } from './options';
import { report } from './report';
import type { CommandResult } from './result';
import { openTake } from './takes';

export interface CommandOutcome {
  stdout: string;
  stderr: string;
  /** 0: the file was read, whatever came out · 2: unusable arguments or files */
  status: 0 | 2;
}

/** Never throws. */
export function runMeasure(args: readonly string[]): CommandOutcome {
  try {
    const options = parseOptions(args);
    if (!options) return { stdout: `${USAGE}\n`, stderr: '', status: 0 };
    const take = openTake(options);
    const { sampleRate, channels, frames, a, b, truncated, gaps } = take;
    const most = MAX_OFFSET_SECONDS * sampleRate;
    if (Math.abs(options.offsetSamples) > most) {
      throw new UsageError(
        `--offset takes at most ±${most} samples (20 ms) at ${sampleRate} Hz; a longer delay isn’t the converters: look for it in the routing.`,
      );
    }
    const measurement = measureSource(take.source, sampleRate, options);
    const result: CommandResult = {
      file: options.file,
      bFile: options.bFile,
      channels,
      durationSeconds: frames / sampleRate,
      a,
      b,
      truncated,
      gaps: gaps.map((gap) => ({
        fromSeconds: gap.fromFrame / sampleRate,
        seconds: gap.frames / sampleRate,
      })),
      ...measurement,
    };
    const text = options.json
      ? JSON.stringify(result, null, 2)
      : report(result, { temperatureC: options.temperatureC, gaps: gapsText(gaps, sampleRate), kind: options.kind });
    return { stdout: `${text}\n`, stderr: '', status: 0 };
  } catch (thrown) {
    const text =
      thrown instanceof UsageError
        ? thrown.message
        : `the measurement failed (${String(thrown)}); nothing was changed.`;
    return { stdout: '', stderr: `measure: ${text}\n`, status: 2 };
  }
}
