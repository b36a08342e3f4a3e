/** `listen`: a recording held against the sticking that was to be played, and what stands out. */
import { expectedCycle } from '@evenhand/core/exercise';
import { type Finding, findingsOf } from '@evenhand/core/finding';
import { type Measurement, measure } from '@evenhand/core/measurement';
import { hear } from '@evenhand/core/stroke';
import type { Take } from '@evenhand/core/take';
import { type SaidProblem, say, sayProblem } from '@evenhand/core/words';
import { readClicks } from '../clicks.ts';
import { listenJson } from '../listen-json.ts';
import { placesTable } from '../listen-lines.ts';
import type { Outcome } from '../outcome.ts';
import { phraseOptions, type ReadPhrase, readPhrase, surfacesOption } from '../phrase.ts';
import { readSound } from '../sound-file.ts';
import type { Call, Verb } from '../verb.ts';
import { clicksOption, durationOf } from './strokes.ts';

const format = 'listen/1';
const empty = { tempoBpm: null, trackedBpm: null, offsetMs: null, grid: [], strokes: [], extra: [], places: [], pairs: [], findings: [] };

export const listen: Verb = {
  name: 'listen',
  format,
  summary: 'Says which strokes of a phrase fail in a recording, and how.',
  about:
    'Holds a recording (WAV or FLAC) of a phrase, played over and over, against its sticking, and says which strokes come early, late, soft or not at all.',
  takesFile: true,
  options: [
    ...phraseOptions,
    { name: 'tempo', kind: 'number', placeholder: 'BPM', example: '92', required: true, about: 'Beats per minute that were played.' },
    surfacesOption,
    clicksOption,
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
  const sound = await readSound(call.files[0]!);
  const clicks = readClicks(call.text.clicks);
  const sofar = [...ofPhrase, ...clicks.problems, ...sound.problems];
  if (!sound.take || clicks.problems.length > 0) return failed(1, sofar, pointed);
  const cycle = expectedCycle(phrase.content);
  const { value, problems } = measured(sound.take, cycle, { tempoBpm, clickTimesSec: clicks.clickTimesSec });
  const all = [...sofar, ...problems];
  if (!value) return failed(1, all, pointed);
  const findings = findingsOf(value, { cycle });
  const json = { format, ...listenJson(value, findings), problems: all };
  return { exit: 0, json, lines: linesOf(value, findings, phrase.content.surfaces), pointed };
}

function measured(
  take: Take,
  cycle: ReturnType<typeof expectedCycle>,
  { tempoBpm, clickTimesSec }: { tempoBpm: number; clickTimesSec: readonly number[] | null },
): { value: Measurement | null; problems: readonly SaidProblem[] } {
  const clicks = clickTimesSec ? { clickTimesSec } : {};
  const { candidates } = hear(take, clicks);
  const { value, problems } = measure(candidates, cycle, { tempoBpm, durationSec: durationOf(take), ...clicks });
  return { value, problems: problems.map((problem) => sayProblem(problem)) };
}

const linesOf = (measurement: Measurement, findings: readonly Finding[], surfaces: readonly string[]): string[] => [
  ...findings.map((finding) => say(finding)),
  '',
  ...placesTable(measurement, surfaces),
];
