/** Types for the npm package fft.js (MIT), which has none of its own. */
declare module 'fft.js' {
  export default class FFT {
    constructor(size: number);
    readonly size: number;
    /** Cosine and minus sine of every turn, interleaved. */
    readonly table: number[];
    /** Interleaved complex spectrum of `data` (real, length `size`) into `out` (length 2·`size`); only bins 0 … size/2 are filled. */
    realTransform(out: ArrayLike<number>, data: ArrayLike<number>): void;
  }
}
