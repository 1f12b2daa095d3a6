/** A band of a spectrum's bins: a bin at an edge counts for the share of its width that lies inside. */
export interface BinBand {
  from: number;
  to: number;
  /** shares of the first and the last bin; of the only one, `first` */
  first: number;
  last: number;
}

/**
 * @param binHz width of a bin; bin k reaches from k − ½ to k + ½
 * @param lastBin the last bin that may be used; bin 0 never is
 */
export function binBand(lowHz: number, highHz: number, binHz: number, lastBin: number): BinBand {
  const low = Math.max(0.5, lowHz / binHz);
  const high = Math.max(low, Math.min(lastBin + 0.5, highHz / binHz));
  const from = Math.min(lastBin, Math.floor(low + 0.5));
  const to = Math.max(from, Math.min(lastBin, Math.ceil(high + 0.5) - 1));
  if (from === to) return { from, to, first: Math.min(1, high - low), last: 0 };
  return { from, to, first: from + 0.5 - low, last: high - (to - 0.5) };
}

/** Real-time safe: yes. */
export function binShare({ from, to, first, last }: BinBand, k: number): number {
  if (k === from) return first;
  return k === to ? last : 1;
}
