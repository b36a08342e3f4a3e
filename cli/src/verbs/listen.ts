/** `listen`: a recording held against the sticking that was to be played, and what stands out. */
import { expectedCycle } from '@evenhand/core/exercise';
import { findingsOf } from '@evenhand/core/finding';
import { measure } from '@evenhand/core/measurement';
import { type SaidProblem, sayProblem } from '@evenhand/core/words';
import { readClicks } from '../clicks.ts';
import { hearFile } from '../hearing.ts';
import { listenJson } from '../listen-json.ts';
import { findingLines, placesTable } from '../listen-lines.ts';
import type { Outcome } from '../outcome.ts';
import { phraseOptions, type ReadPhrase, readPhrase, surfacesOption } from '../phrase.ts';
import { readShape, shapeOptions } from '../shape.ts';
import type { Call, Verb } from '../verb.ts';
import { clicksOption, levelsNamed } from './strokes.ts';

const format = 'listen/1';
const empty = { tempoBpm: null, trackedBpm: null, offsetMs: null, grid: [], strokes: [], extra: [], places: [], pairs: [], findings: [] };

export const listen: Verb = {
  name: 'listen',
  format,
  summary: 'Says which strokes of a phrase fail in a recording, and how.',
  about:
    'Holds a recording (WAV, FLAC, MP3, Ogg, Opus, WebM, AIFF, or MIDI from an electronic kit) of a phrase, played over and over, against its sticking, and says which strokes come early, late, soft or not at all.',
  takesFile: true,
  options: [
    ...phraseOptions,
    { name: 'tempo', kind: 'number', placeholder: 'BPM', example: '92', required: true, about: 'Beats per minute that were played.' },
    surfacesOption,
    clicksOption,
    ...shapeOptions,
  ],
  example: 'evenhand listen take.wav --sticking "RLRLKK" --per-beat 4 --tempo 92',
  empty,
  run: (call) => listenTo(call),
};

async function listenTo(call: Call): Promise<Outcome> {
  const tempoBpm = call.number.tempo!;
  const failed = (exit: 1 | 2, problems: readonly SaidProblem[], pointed?: ReadPhrase['pointed']): Outcome => ({
    exit,
    json: { format, ...empty, tempoBpm, problems },
    lines: [],
    ...(pointed ? { pointed } : {}),
  });
  const { phrase, problems: ofPhrase, pointed } = readPhrase(call);
  if (!phrase) return failed(2, ofPhrase, pointed);
  const wanted = readShape(call, phrase.sticking.strokes.length);
  if (wanted.problems.length > 0) return failed(2, [...ofPhrase, ...wanted.problems], pointed);
  const clicks = readClicks(call.text.clicks);
  if (clicks.problems.length > 0) return failed(1, [...ofPhrase, ...clicks.problems], pointed);
  const { hearing, problems: ofFile } = await hearFile(call.files[0]!, clicks.clickTimesSec);
  if (!hearing) return failed(1, [...ofPhrase, ...ofFile], pointed);
  const cycle = expectedCycle(phrase.content);
  const told = {
    tempoBpm,
    durationSec: hearing.durationSec,
    ...(clicks.clickTimesSec ? { clickTimesSec: clicks.clickTimesSec } : {}),
    ...(hearing.loudness ? { loudness: hearing.loudness } : {}),
  };
  const { value, problems: ofMatch } = measure(hearing.candidates, cycle, told);
  const problems = [...ofPhrase, ...ofFile, ...ofMatch.map((problem) => sayProblem(problem))];
  if (!value) return failed(1, problems, pointed);
  const findings = findingsOf(value, { cycle, problems: ofMatch, shapes: wanted.shapes, fill: wanted.fill });
  const json = { format, ...levelsNamed(hearing), ...listenJson(value, findings), problems };
  return {
    exit: 0,
    json,
    lines: [...findingLines(findings), '', ...placesTable(value, phrase.content, hearing.levelsFrom)],
    pointed,
  };
}
