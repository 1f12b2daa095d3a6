declare module 'fft.js' {
  /** Radix-4 complex FFT; interleaved re, im; size a power of two. */
  export default class FFT {
    constructor(size: number);
    readonly size: number;
    /** cosines and sines */
    table: ArrayLike<number>;
    createComplexArray(): number[];
    transform(out: ArrayLike<number>, data: ArrayLike<number>): void;
    inverseTransform(out: ArrayLike<number>, data: ArrayLike<number>): void;
    realTransform(out: ArrayLike<number>, data: ArrayLike<number>): void;
    completeSpectrum(spectrum: ArrayLike<number>): void;
  }
}
