/** The checksum that ZIP keeps of every entry. */

/** The polynomial of ISO 3309, bits reversed. @source [APPNOTE] 4.4.7 */
const POLYNOMIAL = 0xedb88320;

/** So many bytes are taken at once: what each does to the sum is looked up by how many come after it. */
const AT_ONCE = 8;

/** 256 values for each place, those of the last byte first. */
const TABLE = new Int32Array(256 * AT_ONCE);
for (let byte = 0; byte < 256; byte++) {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ POLYNOMIAL : crc >>> 1;
  TABLE[byte] = crc;
}
for (let at = 256; at < TABLE.length; at++) TABLE[at] = (TABLE[at - 256]! >>> 8) ^ TABLE[TABLE[at - 256]! & 0xff]!;

/** What a byte does to the sum that stands `after` bytes before the end of those taken at once. */
const part = (byte: number, after: number): number => TABLE[(after << 8) | (byte & 0xff)]!;

/**
 * CRC-32 of bytes as an unsigned number; of none 0. `crc32` of the ASCII digits 1 to 9 is 0xcbf43926.
 * @param before the CRC-32 of what comes before these bytes; 0 for nothing.
 */
export function crc32(bytes: Uint8Array, before = 0): number {
  let crc = ~before;
  let i = 0;
  for (; i + AT_ONCE <= bytes.length; i += AT_ONCE) {
    const low = crc ^ (bytes[i]! | (bytes[i + 1]! << 8) | (bytes[i + 2]! << 16) | (bytes[i + 3]! << 24));
    crc =
      part(low, 7) ^
      part(low >>> 8, 6) ^
      part(low >>> 16, 5) ^
      part(low >>> 24, 4) ^
      part(bytes[i + 4]!, 3) ^
      part(bytes[i + 5]!, 2) ^
      part(bytes[i + 6]!, 1) ^
      part(bytes[i + 7]!, 0);
  }
  for (; i < bytes.length; i++) crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]!) & 0xff]!;
  return (crc ^ -1) >>> 0;
}
