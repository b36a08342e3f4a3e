/** Standard MIDI Files become notes in seconds. */

/** A key struck. */
export interface MidiNote {
  readonly timeSec: number;
  /** From 0; drums are on 9, which musicians call 10. */
  readonly channel: number;
  readonly key: number;
  /** 1 to 127. */
  readonly velocity: number;
}

export interface MidiFile {
  /** In rising time. */
  readonly notes: readonly MidiNote[];
  /** Until the last event; an end of track that stands later is an empty rest. */
  readonly durationSec: number;
  /** The bytes ended or made no sense before a track was over; what was read till then is there. */
  readonly damaged: boolean;
}

/** `MThd`, the four letters every MIDI file begins with. @source [SMF] */
export const isMidi = (bytes: Uint8Array): boolean => String.fromCharCode(...bytes.subarray(0, 4)) === 'MThd';

/**
 * Reads a MIDI file of format 0, 1 or 2. Never throws.
 * @param bytes beginning with `MThd`.
 * @source [SMF] chunks, variable-length quantities, running status, tempo and end-of-track events
 */
export function readMidi(bytes: Uint8Array): MidiFile {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 14 || isTimeless(view.getUint16(12))) return { notes: [], durationSec: 0, damaged: true };
  const tracks: Track[] = [];
  let at = 8 + view.getUint32(4);
  while (at + 8 <= bytes.length) {
    const end = at + 8 + view.getUint32(at + 4);
    if (view.getUint32(at) === TRACK_CHUNK) tracks.push(readTrack(bytes.subarray(at + 8, end), end > bytes.length));
    at = end;
  }
  return timed(tracks, clockOf(view.getUint16(12), tracks));
}

/** The letters `MTrk`. */
const TRACK_CHUNK = 0x4d54726b;
/** Until a file says otherwise: 120 beats per minute. */
const USUAL_TEMPO_US = 500_000;

interface Track {
  readonly notes: { readonly tick: number; readonly channel: number; readonly key: number; readonly velocity: number }[];
  readonly tempi: { readonly tick: number; readonly usPerBeat: number }[];
  endTick: number;
  damaged: boolean;
}

function readTrack(bytes: Uint8Array, cutShort: boolean): Track {
  const track: Track = { notes: [], tempi: [], endTick: 0, damaged: cutShort };
  const reader = { bytes, at: 0, tick: 0, status: 0 };
  while (reader.at < bytes.length) {
    reader.tick += readQuantity(reader);
    if (!readEvent(reader, track)) break;
    track.endTick = reader.tick;
  }
  if (reader.at > bytes.length) track.damaged = true;
  return track;
}

interface Reader {
  readonly bytes: Uint8Array;
  at: number;
  tick: number;
  /** The status that events without one of their own continue. */
  status: number;
}

/** A number of seven bits a byte, the last without its highest bit. Beyond the end it is 0. */
export function readQuantity(reader: Pick<Reader, 'bytes' | 'at'>): number {
  let value = 0;
  for (let i = 0; i < 4; i++) {
    const byte = reader.bytes[reader.at++] ?? 0;
    value = value * 128 + (byte & 127);
    if (byte < 128) break;
  }
  return value;
}

/** Reads one event into the track; false when the track is over or makes no sense. */
function readEvent(reader: Reader, track: Track): boolean {
  const first = reader.bytes[reader.at] ?? 0;
  if (first >= 128) reader.at++;
  if (first === 0xff) return readMeta(reader, track);
  if (first === 0xf0 || first === 0xf7) {
    const length = readQuantity(reader);
    reader.at += length;
    return true;
  }
  if (first >= 128) reader.status = first;
  if (reader.status < 128 || reader.status >= 0xf0) {
    track.damaged = true;
    return false;
  }
  return readChannelEvent(reader, track);
}

function readChannelEvent(reader: Reader, track: Track): boolean {
  const kind = reader.status >> 4;
  const [key = 0, velocity = 0] = reader.bytes.subarray(reader.at, reader.at + 2);
  reader.at += kind === 0xc || kind === 0xd ? 1 : 2;
  if (kind === 0x9 && velocity > 0) track.notes.push({ tick: reader.tick, channel: reader.status & 15, key, velocity });
  return true;
}

function readMeta(reader: Reader, track: Track): boolean {
  const type = reader.bytes[reader.at++];
  const length = readQuantity(reader);
  const data = reader.bytes.subarray(reader.at, reader.at + length);
  reader.at += length;
  if (type === 0x51 && data.length >= 3) track.tempi.push({ tick: reader.tick, usPerBeat: (data[0]! << 16) | (data[1]! << 8) | data[2]! });
  return type !== 0x2f;
}

/** A beat, or a frame, of no ticks: nothing would have a time. */
const isTimeless = (division: number): boolean => division === 0 || (division >= 0x8000 && (division & 255) === 0);

/** Seconds of a tick: by the tempi of all tracks, or by frames of a second when the file counts those. */
function clockOf(division: number, tracks: readonly Track[]): (tick: number) => number {
  if (division >= 0x8000) {
    const perSec = (256 - (division >> 8)) * (division & 255);
    return (tick) => tick / perSec;
  }
  const tempi = tracks.flatMap((track) => track.tempi).sort((a, b) => a.tick - b.tick);
  return (tick) => {
    let [sec, from, usPerBeat] = [0, 0, USUAL_TEMPO_US];
    for (const tempo of tempi) {
      if (tempo.tick >= tick) break;
      sec += ((tempo.tick - from) / division) * (usPerBeat / 1e6);
      [from, usPerBeat] = [tempo.tick, tempo.usPerBeat];
    }
    return sec + ((tick - from) / division) * (usPerBeat / 1e6);
  };
}

function timed(tracks: readonly Track[], secOf: (tick: number) => number): MidiFile {
  const notes = tracks.flatMap((track) => track.notes).map(({ tick, ...note }) => ({ timeSec: secOf(tick), ...note }));
  return {
    notes: notes.sort((a, b) => a.timeSec - b.timeSec),
    durationSec: Math.max(0, ...tracks.map(({ endTick }) => secOf(endTick))),
    damaged: tracks.length === 0 || tracks.some(({ damaged }) => damaged),
  };
}
