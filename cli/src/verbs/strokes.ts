/** `strokes`: what is heard in a recording by somebody who was not told what was played. */
import { hear, type Stroke } from '@evenhand/core/stroke';
import type { Take } from '@evenhand/core/take';
import { readClicks } from '../clicks.ts';
import { db, sec, share } from '../figures.ts';
import type { Outcome } from '../outcome.ts';
import { readSound } from '../sound-file.ts';
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
  about: 'Lists every stroke heard in a recording (WAV or FLAC): when, how loud, on what kind of drum. Nothing is assumed about what was played.',
  takesFile: true,
  options: [clicksOption],
  example: 'evenhand strokes take.wav',
  empty,
  run: (call) => strokesOf(call),
};

async function strokesOf(call: Call): Promise<Outcome> {
  const sound = await readSound(call.files[0]!);
  const clicks = readClicks(call.text.clicks);
  const problems = [...clicks.problems, ...sound.problems];
  if (!sound.take || clicks.problems.length > 0) return { exit: 1, json: { format, ...empty, problems }, lines: [] };
  const heard = hear(sound.take, clicks.clickTimesSec ? { clickTimesSec: clicks.clickTimesSec } : {});
  const facts = { sampleRateHz: sound.take.clock.sampleRateHz, durationSec: durationOf(sound.take) };
  return { exit: 0, json: { format, ...facts, strokes: heard.strokes.map(jsonOf), problems }, lines: linesOf(heard.strokes, facts.durationSec) };
}

/** Length of a take in seconds. */
export const durationOf = ({ samples, clock }: Take): number => sec(samples.length / clock.sampleRateHz);

const jsonOf = ({ timeSec, levelDb, confidence, drum }: Stroke) => ({
  timeSec: sec(timeSec),
  levelDb: db(levelDb),
  confidence: share(confidence),
  drum,
});

function linesOf(heard: readonly Stroke[], durationSec: number): string[] {
  if (heard.length === 0) return [`No stroke stands out in these ${durationSec.toFixed(1)} seconds.`];
  const rows = heard.map(({ timeSec, levelDb, drum, confidence }) => [
    `${timeSec.toFixed(3)} s`,
    drum,
    `${levelDb.toFixed(1)} dB`,
    confidence < 0.5 ? 'time unsure' : '',
  ]);
  return [`${heard.length} strokes in ${durationSec.toFixed(1)} seconds.`, '', ...table([['when', 'drum', 'volume', ''], ...rows])];
}
