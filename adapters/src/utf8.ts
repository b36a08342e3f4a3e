/** UTF-8 to text and back, strictly. */
import { utf8ToBytes } from '@noble/hashes/utils.js';

/** Every browser and Node have it; the language itself does not. */
declare const TextDecoder: new (label: 'utf-8', options: { readonly fatal: true; readonly ignoreBOM: true }) => { decode(bytes: Uint8Array): string };

/** Text as UTF-8. A lone half of a surrogate pair would become U+FFFD; canonical JSON has none. */
export const utf8Of = (text: string): Uint8Array => utf8ToBytes(text);

/** The text of UTF-8 bytes, a byte order mark included as it stands; null when they are not UTF-8. */
export function textOf(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}
