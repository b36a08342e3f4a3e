/** The notes of an electronic kit as the strokes and candidates that the ear would give. */
import type { Candidate, DrumKind, DrumOdds, Heard, Stroke } from '@evenhand/core/stroke';
import { amplitudeOfDb, dbOfAmplitude } from '@evenhand/core/units';
import type { MidiNote } from './midi-file.ts';

/** The channel of drums, counted from 0. @source [GM1] */
const DRUM_CHANNEL = 9;
/** Loudest over softest velocity, dB. @source [Dannenberg2006] devices roughly follow a square law over about 60 dB */
const RANGE_DB = 60;
/** A note is certain: it stands out as far as a stroke can. */
const STRENGTH = 4;
/** Odds of the kinds a key does not name. */
const OTHER_ODDS = 0.01;

/** Kinds of drum by General MIDI key. @source [GM1] percussion map; keys not here are hand drums and toys, which the ear would hear as pads */
const keysOf: Readonly<Record<DrumKind, readonly number[]>> = {
  kick: [35, 36],
  snare: [37, 38, 39, 40],
  tom: [41, 43, 45, 47, 48, 50],
  cymbal: [42, 44, 46, 49, 51, 52, 53, 55, 57, 59],
  pad: [],
};

/** What was played, in rising time; notes of other channels count only when there are no drums. */
export function hearMidi(notes: readonly MidiNote[]): Heard {
  const drums = notes.filter(({ channel }) => channel === DRUM_CHANNEL);
  const candidates = (drums.length > 0 ? drums : notes).map(candidateOf);
  const strokes = candidates.map(({ timeSec, volumeDb, confidence, drumOdds }): Stroke => {
    return { timeSec, levelDb: volumeDb, confidence, drum: likeliest(drumOdds) };
  });
  return { candidates, strokes };
}

const candidateOf = ({ timeSec, key, velocity }: MidiNote): Candidate => ({
  timeSec,
  strength: STRENGTH,
  volumeDb: levelOfVelocity(velocity),
  confidence: 1,
  drumOdds: oddsOf(key),
});

/**
 * The level that a velocity stands for, dB: 0 at 127, −60 at 1.
 * @source [Dannenberg2006] a = (m·v + b)², r = 10^(R/20)
 */
export function levelOfVelocity(velocity: number): number {
  const root = Math.sqrt(amplitudeOfDb(RANGE_DB));
  const b = 127 / (126 * root) - 1 / 126;
  const m = (1 - b) / 127;
  return dbOfAmplitude((m * velocity + b) ** 2);
}

function oddsOf(key: number): DrumOdds {
  const kinds = Object.keys(keysOf) as DrumKind[];
  const named = kinds.find((kind) => keysOf[kind].includes(key)) ?? 'pad';
  const odds = kinds.map((kind) => [kind, kind === named ? 1 - OTHER_ODDS * (kinds.length - 1) : OTHER_ODDS]);
  return Object.fromEntries(odds) as Record<DrumKind, number>;
}

const likeliest = (odds: DrumOdds): DrumKind => (Object.keys(odds) as DrumKind[]).reduce((best, kind) => (odds[kind] > odds[best] ? kind : best));
