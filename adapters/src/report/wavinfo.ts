/** Words inside a WAV file: what it is called and what is to be known of it. */
import { joined } from '../joined.ts';
import { utf8Of } from '../utf8.ts';

export interface WavInfo {
  readonly title: string;
  /** Of any length. */
  readonly comment: string;
}

/**
 * The same file with a list of information after its samples, as programs that play sound show it. Texts are UTF-8.
 * @param wav as `writeWav` gives it.
 * @source [RIFF] chapter 3, INFO: INAM and ICMT
 */
export function withInfo(wav: Uint8Array, { title, comment }: WavInfo): Uint8Array {
  const fields = [
    ['INAM', title],
    ['ICMT', comment],
  ] as const;
  const chunks = fields.flatMap(([id, text]) => (text === '' ? [] : [chunk(id, utf8Of(`${text}\0`))]));
  const list = chunk('LIST', joined([utf8Of('INFO'), ...chunks]));
  const bytes = joined([wav, list]);
  new DataView(bytes.buffer).setUint32(4, bytes.length - 8, true);
  return bytes;
}

/** A chunk begins on an even byte; its length does not count the filling. */
function chunk(id: string, data: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(8 + data.length + (data.length & 1));
  bytes.set(utf8Of(id));
  new DataView(bytes.buffer).setUint32(4, data.length, true);
  bytes.set(data, 8);
  return bytes;
}
