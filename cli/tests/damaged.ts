/** Sound files damaged by chance, the same for the same seed; and what must hold of every one of them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { encodeFlac } from '@evenhand/adapters/flac';
import { seededRandom } from '@evenhand/core/random';
import { inMemory, writeWav } from '@evenhand/core/take';
import { sayProblem } from '@evenhand/core/words';
import { oggChecksum } from '../src/decoders/ogg.ts';
import { hearStream } from '../src/hearing.ts';
import { openByOurselves } from '../src/sound.ts';

export interface Damaged {
  readonly what: string;
  readonly bytes: Uint8Array;
}

interface Whole {
  readonly name: string;
  readonly bytes: Uint8Array;
}

type Chance = ReturnType<typeof chanceOf>;

const RATE_HZ = 8000;

/** Whole files of every kind, as small as they come: an eighth to a third of a second at 8 kHz. @param folder where the fixtures of other programs lie. */
export async function wholeFiles(folder: string): Promise<readonly Whole[]> {
  const random = seededRandom(3);
  const sound = Float32Array.from({ length: 1000 }, (_, i) => (2 * random() - 1) * (0.001 + 0.5 * Math.exp(-(i % 400) / 90)));
  const foreign = ['tiny.mp3', 'tiny.ogg', 'tiny.opus', 'tiny-opus.webm', 'tiny-vorbis.webm'];
  return [
    { name: 'wav16', bytes: writeWav(sound, RATE_HZ, { bits: 16 }) },
    { name: 'wav24', bytes: writeWav(sound, RATE_HZ, { bits: 24 }) },
    { name: 'float', bytes: writeWav(sound, RATE_HZ, { bits: 'float32' }) },
    { name: 'aiff', bytes: aiffOf(sound) },
    { name: 'flac', bytes: await encodeFlac(sound, RATE_HZ) },
    ...foreign.map((name) => ({ name, bytes: new Uint8Array(readFileSync(join(folder, name))) })),
  ];
}

/** One damaged file. */
export function damagedBy(seed: number, wholes: readonly Whole[]): Damaged {
  const chance = chanceOf(seed);
  const whole = chance.oneOf(wholes);
  const harms = chance.below(4) === 0 ? [chance.oneOf(HARMS), chance.oneOf(HARMS)] : [chance.oneOf(HARMS)];
  const bytes = harms.reduce<Uint8Array>((so, { harm }) => harm(so, chance, wholes), whole.bytes.slice());
  return { what: `${seed}: ${whole.name}, ${harms.map(({ name }) => name).join(', ')}`, bytes };
}

/** What is wrong with how a file was dealt with; null when nothing is. It must be heard soundly or refused in words, and never throw. */
export async function faultWith({ what, bytes }: Damaged): Promise<string | null> {
  try {
    const { value, problems: early } = await openByOurselves(inMemory(bytes));
    const { hearing, problems } = value ? hearStream(value, null) : { hearing: null, problems: early.map((problem) => sayProblem(problem)) };
    if (!hearing && !problems.some(({ severity }) => severity === 'refused')) return `${what}: nothing given and nothing said`;
    const mute = problems.find(({ text }) => !/^[A-Z].*[.!?]$/s.test(text) || /undefined|NaN|Infinity|\[object/.test(text));
    if (mute) return `${what}: says "${mute.text}"`;
    const odd = hearing?.strokes.find(
      ({ timeSec, levelDb, confidence }) =>
        !(timeSec >= 0 && timeSec <= hearing.durationSec && Number.isFinite(levelDb) && confidence >= 0 && confidence <= 1),
    );
    return odd || (hearing && !(hearing.durationSec > 0 && hearing.durationSec < 1e6))
      ? `${what}: hears ${JSON.stringify(odd ?? hearing?.durationSec)}`
      : null;
  } catch (error) {
    return `${what}: throws ${error instanceof Error ? error.stack : String(error)}`;
  }
}

const chanceOf = (seed: number) => {
  const random = seededRandom(seed + 1);
  const below = (count: number): number => Math.floor(random() * count);
  const oneOf = <Item>(items: readonly Item[]): Item => items[below(items.length)]!;
  return { below, oneOf, byte: () => below(256) };
};

interface Harm {
  readonly name: string;
  readonly harm: (bytes: Uint8Array, chance: Chance, wholes: readonly Whole[]) => Uint8Array;
}

const HARMS: readonly Harm[] = [
  { name: 'bits flipped', harm: (bytes, chance) => flipped(bytes, chance, bytes.length) },
  { name: 'bits of the head flipped', harm: (bytes, chance) => flipped(bytes, chance, 64) },
  { name: 'bits flipped under a right checksum', harm: (bytes, chance) => resealed(flipped(bytes, chance, bytes.length)) },
  { name: 'cut off', harm: (bytes, chance) => bytes.slice(0, chance.below(bytes.length + 1)) },
  { name: 'beginning lost', harm: (bytes, chance) => bytes.slice(chance.below(bytes.length + 1)) },
  { name: 'stretches swapped', harm: swapped },
  { name: 'stretch doubled', harm: doubled },
  { name: 'stretch of one byte', harm: flattened },
  { name: 'number of the head absurd', harm: absurd },
  { name: 'head of another kind', harm: beheaded },
  { name: 'no numbers in it', harm: notNumbers },
  { name: 'silent', harm: (bytes, chance) => bytes.fill(0, 44 + chance.below(20)) },
  { name: 'chance from end to end', harm: (bytes, chance) => bytes.map((byte, i) => (i < 12 && chance.below(2) ? byte : chance.byte())) },
];

function flipped(bytes: Uint8Array, chance: Chance, within: number): Uint8Array {
  const reach = Math.min(within, bytes.length);
  for (let left = 1 + chance.below(chance.oneOf([1, 4, 40])); left > 0 && reach > 0; left--) bytes[chance.below(reach)]! ^= 1 << chance.below(8);
  return bytes;
}

/** Ogg pages get the checksum that belongs to them, so that damage reaches what lies behind it. */
function resealed(bytes: Uint8Array): Uint8Array {
  for (let at = 0; at + 27 <= bytes.length && bytes[at] === 0x4f; ) {
    const count = bytes[at + 26]!;
    const length = 27 + count + bytes.subarray(at + 27, at + 27 + count).reduce((sum, piece) => sum + piece, 0);
    if (at + length > bytes.length) break;
    new DataView(bytes.buffer, bytes.byteOffset).setUint32(at + 22, oggChecksum(bytes.subarray(at, at + length)), true);
    at += length;
  }
  return bytes;
}

function swapped(bytes: Uint8Array, chance: Chance): Uint8Array {
  const length = chance.below(Math.floor(bytes.length / 2) + 1);
  const [a, b] = [chance.below(bytes.length - length + 1), chance.below(bytes.length - length + 1)];
  const kept = bytes.slice(a, a + length);
  bytes.copyWithin(a, b, b + length);
  bytes.set(kept, b);
  return bytes;
}

function doubled(bytes: Uint8Array, chance: Chance): Uint8Array {
  const from = chance.below(bytes.length + 1);
  const to = from + chance.below(bytes.length - from + 1);
  return Uint8Array.from([...bytes.subarray(0, to), ...bytes.subarray(from)]);
}

function flattened(bytes: Uint8Array, chance: Chance): Uint8Array {
  const from = chance.below(bytes.length + 1);
  return bytes.fill(chance.oneOf([0, 255, 0x4f, chance.byte()]), from, from + chance.below(bytes.length));
}

/** Rates, sizes, channel counts: a number of two or four bytes somewhere in the head is as large or small as it can be. */
function absurd(bytes: Uint8Array, chance: Chance): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const at = chance.below(Math.max(1, Math.min(60, bytes.length - 4)));
  if (at + 4 > bytes.length) return bytes;
  const value = chance.oneOf([0, 1, 7, 0x7fff, 0xffff, 0x7fffffff, 0x80000000, 0xffffffff, 768_000, 4_000_000_000]);
  if (chance.below(2) === 0) view.setUint16(at, value & 0xffff, chance.below(2) === 0);
  else view.setUint32(at, value >>> 0, chance.below(2) === 0);
  return bytes;
}

function beheaded(bytes: Uint8Array, chance: Chance, wholes: readonly Whole[]): Uint8Array {
  const head = chance.oneOf(wholes).bytes.subarray(0, 4 + chance.below(60));
  return Uint8Array.from([...head, ...bytes.subarray(Math.min(bytes.length, chance.below(80)))]);
}

function notNumbers(bytes: Uint8Array, chance: Chance): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const values = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 3e38, -1e-40];
  for (let at = 44; at + 4 <= bytes.length; at += 4 * (1 + chance.below(30))) view.setFloat32(at, chance.oneOf(values), true);
  return bytes;
}

/** A plain AIFF file of 16 bits: the two chunks it needs. The rate stands in ten bytes: 8000 is 1.953125 times 2 to the 12th. */
function aiffOf(sound: Float32Array): Uint8Array {
  const bytes = new Uint8Array(54 + 2 * sound.length);
  const view = new DataView(bytes.buffer);
  const letters = (at: number, text: string) =>
    bytes.set(
      [...text].map((letter) => letter.charCodeAt(0)),
      at,
    );
  letters(0, 'FORM');
  view.setUint32(4, bytes.length - 8);
  letters(8, 'AIFFCOMM');
  view.setUint32(16, 18);
  view.setUint16(20, 1);
  view.setUint32(22, sound.length);
  view.setUint16(26, 16);
  view.setUint16(28, 16_383 + 12);
  view.setUint32(30, 1.953125 * 2 ** 31);
  letters(38, 'SSND');
  view.setUint32(42, 8 + 2 * sound.length);
  sound.forEach((value, i) => {
    view.setInt16(54 + 2 * i, Math.round(32_767 * value));
  });
  return bytes;
}
