/** Recordings with a known tempo: performances played to a click (Groove MIDI Dataset, CC BY 4.0), made sound by our own drums. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { readMidi } from '../../cli/src/midi-file.ts';
import { seededRandom } from '../../core/src/random.ts';
import { renderStrokes } from '../../core/src/sound/index.ts';

export const FOLDER = '../shared/reference/groove-midi';
export const RATE_HZ = 22_050;

/** Drums of this data set's kit by key. */
const DRUMS: Readonly<Record<number, string>> = {
  22: 'hi-hat',
  26: 'open-hi-hat',
  36: 'kick',
  37: 'cross-stick',
  38: 'snare',
  40: 'rim',
  42: 'hi-hat',
  43: 'floor-tom',
  44: 'hi-hat-foot',
  45: 'mid-tom',
  46: 'open-hi-hat',
  47: 'mid-tom',
  48: 'high-tom',
  49: 'crash',
  50: 'high-tom',
  51: 'ride',
  52: 'crash',
  53: 'ride-bell',
  55: 'crash',
  57: 'crash',
  58: 'floor-tom',
  59: 'ride',
};

export interface Recording {
  readonly name: string;
  /** Of the click that it was played to. */
  readonly tempoBpm: number;
  readonly beatsPerBar: number;
  readonly samples: Float32Array;
}

/** Names of the performances, in order; none where the data set is absent. */
export const performances = (): readonly string[] =>
  existsSync(FOLDER)
    ? readdirSync(FOLDER)
        .filter((file) => /_beat_\d-\d\.mid$/.test(file))
        .sort()
    : [];

/** One of them as sound, its first `longestSec`. Volume by a square law of velocity, full velocity at −14 dB. */
export function recordingOf(file: string, longestSec: number): Recording {
  const [, tempo, beats] = /_(\d+)_beat_(\d)-/.exec(file)!;
  const { notes } = readMidi(readFileSync(`${FOLDER}/${file}`));
  const strokes = notes
    .filter(({ timeSec }) => timeSec < longestSec)
    .map(({ timeSec, key, velocity }) => ({ timeSec, surface: DRUMS[key] ?? 'snare', levelDb: -14 + 40 * Math.log10(velocity / 127) }));
  const durationSec = Math.min(longestSec, notes.at(-1)!.timeSec + 0.5);
  const samples = renderStrokes(strokes, { sampleRateHz: RATE_HZ, durationSec, random: seededRandom(1), strikesPerDrum: 4 });
  return { name: file.replace(/_beat_.*/, ''), tempoBpm: Number(tempo), beatsPerBar: Number(beats), samples };
}
