/** Proof: ten minutes of drumming that is no command say nothing: performances of groove-midi through our own drums, and takes of real drum samples. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { decodeFlac } from '../../adapters/src/flac/index.ts';
import { type MidiNote, readMidi } from '../../cli/src/midi-file.ts';
import { seededRandom } from '../../core/src/random.ts';
import { renderStrokes } from '../../core/src/sound/index.ts';
import { saidIn } from './said.ts';

const GROOVES = '../shared/reference/groove-midi/';
const TAKES = '../shared/reference/takes/';
const RATE_HZ = 48_000;
const WANTED_SEC = 600;
/** Of each performance no more than this, so that many are heard. */
const MOST_SEC = 40;

/** Drums by the keys this data set's kit sends. */
const DRUMS: readonly (readonly [string, readonly number[]])[] = [
  ['kick', [35, 36]],
  ['cross-stick', [37]],
  ['rim', [40]],
  ['snare', [38]],
  ['hi-hat-foot', [44]],
  ['open-hi-hat', [26, 46]],
  ['hi-hat', [22, 42]],
  ['floor-tom', [43, 58]],
  ['mid-tom', [45, 47]],
  ['high-tom', [48, 50]],
  ['ride-bell', [53]],
  ['ride', [51, 59]],
  ['crash', [49, 52, 55, 57]],
];

const surfaceOf = (key: number): string => DRUMS.find(([, keys]) => keys.includes(key))?.[0] ?? 'snare';

function performed(notes: readonly MidiNote[], seed: number): Float32Array {
  const strokes = notes
    .filter(({ timeSec }) => timeSec < MOST_SEC)
    .map(({ timeSec, key, velocity }) => ({ timeSec: timeSec + 0.5, surface: surfaceOf(key), levelDb: -20 + 40 * Math.log10(velocity / 127) }));
  const durationSec = Math.max(...strokes.map(({ timeSec }) => timeSec)) + 2;
  const sound = renderStrokes(strokes, { sampleRateHz: RATE_HZ, durationSec, random: seededRandom(seed), strikesPerDrum: 4 });
  const noise = seededRandom(seed + 1);
  return sound.map((sample) => sample + 0.0005 * (2 * noise() - 1));
}

if (!existsSync(GROOVES) || !existsSync(TAKES)) {
  console.log('../shared/reference is absent: nothing was listened to');
  process.exit(1);
}
let heardSec = 0;
let pieces = 0;
const said: string[] = [];
const hear = (name: string, samples: Float32Array, rateHz: number): void => {
  heardSec += samples.length / rateHz;
  pieces++;
  said.push(...saidIn(samples, rateHz).map(({ count, fromFrame }) => `${name}: ${count} at ${(fromFrame / rateHz).toFixed(1)} s`));
};
for (const name of readdirSync(TAKES).filter((file) => file.endsWith('.flac'))) {
  const { samples, sampleRateHz } = await decodeFlac(new Uint8Array(readFileSync(TAKES + name)));
  hear(name, samples, sampleRateHz);
}
for (const [seed, name] of readdirSync(GROOVES)
  .filter((file) => file.endsWith('.mid'))
  .entries()) {
  if (heardSec >= WANTED_SEC) break;
  const { notes } = readMidi(new Uint8Array(readFileSync(GROOVES + name)));
  if (notes.length > 0) hear(name, performed(notes, seed), RATE_HZ);
}
console.log(
  `${(heardSec / 60).toFixed(1)} minutes in ${pieces} pieces: ${said.length === 0 ? 'nothing was taken for stick clicks' : said.join('; ')}`,
);
process.exitCode = said.length === 0 && heardSec >= WANTED_SEC ? 0 : 1;
