/** The checksum that ZIP keeps of every entry. */

/** The polynomial of ISO 3309, bits reversed. @source [APPNOTE] 4.4.7 */
const POLYNOMIAL = 0xedb88320;

const TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ POLYNOMIAL : crc >>> 1;
  return crc;
});

/** CRC-32 of bytes as an unsigned number; of none 0. `crc32` of the ASCII digits 1 to 9 is 0xcbf43926. */
export function crc32(bytes: Uint8Array): number {
  let crc = -1;
  for (let i = 0; i < bytes.length; i++) crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]!) & 0xff]!;
  return (crc ^ -1) >>> 0;
}
