/**
 * Memory that is there. A new large array is a promise: the system finds each of its pages when it is first written to, which
 * takes 50 µs for what is kept of a hit, on the audio thread. Here every page is written to at once. Real-time safe: no (allocates).
 */
export const room64 = (n: number): Float64Array => new Float64Array(n).fill(0);
export const room32 = (n: number): Float32Array => new Float32Array(n).fill(0);
