/** Bytes as base64 and back: neither Node's nor the browser's own way is in the language. */
import { InvariantError } from '@evenhand/core/errors';

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** @source [RFC4648] section 4 */
export function base64Of(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += 3) {
    const held = (bytes[at]! << 16) | ((bytes[at + 1] ?? 0) << 8) | (bytes[at + 2] ?? 0);
    const letters = [18, 12, 6, 0].map((bits) => DIGITS[(held >> bits) & 63]!);
    const real = Math.min(3, bytes.length - at) + 1;
    parts.push(`${letters.slice(0, real).join('')}${'='.repeat(4 - real)}`);
  }
  return parts.join('');
}

/** @throws InvariantError for a letter that is not base64. */
export function bytesOfBase64(base64: string): Uint8Array {
  const letters = base64.replaceAll('=', '');
  const bytes = new Uint8Array(Math.floor((letters.length * 3) / 4));
  let [bits, held, at] = [0, 0, 0];
  for (const letter of letters) {
    const value = DIGITS.indexOf(letter);
    if (value < 0) throw new InvariantError(`the letter ${letter} is not base64`);
    bits = ((bits << 6) | value) & 0xffffff;
    held += 6;
    if (held >= 8) {
      held -= 8;
      bytes[at++] = (bits >> held) & 0xff;
    }
  }
  return bytes;
}
