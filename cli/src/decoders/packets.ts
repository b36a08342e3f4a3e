/** Packets of compressed sound in the order of time, as a file's frame holds them. */

export interface Packet {
  readonly bytes: Uint8Array;
  /** Samples from the start up to the end of this packet, where the file says so: the last one may end earlier than it decodes to. */
  readonly granule: number | null;
}

/** @returns whether they came to their proper end; false when the file is damaged or breaks off. */
export type Packets = Generator<Packet, boolean>;
