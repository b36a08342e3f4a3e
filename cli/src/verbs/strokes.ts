/** `strokes`: what is heard in a recording by somebody who was not told what was played. */
import type { Stroke } from '@evenhand/core/stroke';
import { readClicks } from '../clicks.ts';
import { db, sec, share } from '../figures.ts';
import { type Hearing, hearFile } from '../hearing.ts';
import { volumeHeading } from '../listen-lines.ts';
import type { Outcome } from '../outcome.ts';
import { table } from '../table.ts';
import type { Call, OptionSpec, Verb } from '../verb.ts';

const format = 'strokes/1';
const empty = { sampleRateHz: null, durationSec: null, strokes: [] };

/** The times at which a click sounded; `listen` takes them too. */
export const clicksOption: OptionSpec = {
  name: 'clicks',
  kind: 'text',
  placeholder: 'FILE',
  example: 'clicks.txt',
  about: 'Times of the click in seconds, one per line, when it can be heard in the recording.',
};

export const strokes: Verb = {
  name: 'strokes',
  format,
  summary: 'Lists every stroke heard in a recording.',
  about:
    'Lists every stroke heard in a recording (WAV, FLAC, MP3, Ogg, Opus, WebM, AIFF, or MIDI from an electronic kit): when, how loud, on what kind of drum. Nothing is assumed about what was played.',
  takesFile: true,
  options: [clicksOption],
  example: 'evenhand strokes take.wav',
  empty,
  run: (call) => strokesOf(call),
};

async function strokesOf(call: Call): Promise<Outcome> {
  const clicks = readClicks(call.text.clicks);
  if (clicks.problems.length > 0) return { exit: 1, json: { format, ...empty, problems: clicks.problems }, lines: [] };
  const { hearing, problems } = await hearFile(call.files[0]!, clicks.clickTimesSec);
  if (!hearing) return { exit: 1, json: { format, ...empty, problems }, lines: [] };
  const { sampleRateHz, durationSec } = hearing;
  const json = { format, sampleRateHz, durationSec: sec(durationSec), ...levelsNamed(hearing), strokes: hearing.strokes.map(jsonOf), problems };
  return { exit: 0, json, lines: linesOf(hearing) };
}

/** Says where levels come from when that is not the sound. */
export const levelsNamed = ({ levelsFrom }: Hearing) => (levelsFrom === 'sound' ? {} : { levelsFrom });

const jsonOf = ({ timeSec, levelDb, confidence, drum }: Stroke) => ({
  timeSec: sec(timeSec),
  levelDb: db(levelDb),
  confidence: share(confidence),
  drum,
});

function linesOf({ strokes: heard, durationSec, levelsFrom }: Hearing): string[] {
  if (heard.length === 0) return [`No stroke stands out in these ${durationSec.toFixed(1)} seconds.`];
  const rows = heard.map(({ timeSec, levelDb, drum, confidence }) => [
    `${timeSec.toFixed(3)} s`,
    drum,
    `${levelDb.toFixed(1)} dB`,
    confidence < 0.5 ? 'time unsure' : '',
  ]);
  return [
    `${heard.length === 1 ? '1 stroke' : `${heard.length} strokes`} in ${durationSec.toFixed(1)} seconds.`,
    '',
    ...table([['when', 'drum', volumeHeading(levelsFrom), ''], ...rows]),
  ];
}
