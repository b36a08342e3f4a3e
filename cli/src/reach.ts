/** What a player reaches so far, from what `evenhand listen --json` said of takes. */
import type { Exercise, ExerciseContent, PlayedAt } from '@evenhand/core/exercise';
import { beyondSoFar } from '@evenhand/core/exercise';
import { type PlayedBurst, type Reach, reachSoFar, toldBeyond, toldReach } from '@evenhand/core/kit';
import { burstsHeard, type HeardStroke } from '@evenhand/core/tempo';
import { type SaidProblem, say } from '@evenhand/core/words';
import { readText } from './files.ts';
import { refuse } from './problems.ts';
import type { Call, OptionSpec } from './verb.ts';

export const playedOption: OptionSpec = {
  name: 'played',
  kind: 'texts',
  placeholder: 'LISTEN.json …',
  example: 'tuesday.json',
  about: 'Takes of yours, as `evenhand listen --json` prints them: what lies beyond your reach so far comes last.',
};

export interface ReadReach {
  readonly played: readonly PlayedBurst[];
  readonly reach: Reach;
  readonly problems: readonly SaidProblem[];
}

/** The reach of the takes named in a call; usual figures where there are none. */
export function readReach({ texts }: Call): ReadReach {
  const read = (texts.played ?? []).map(burstsIn);
  const played = read.flatMap(({ bursts }) => bursts);
  return { played, reach: reachSoFar(played), problems: read.flatMap(({ problems }) => problems) };
}

function burstsIn(file: string): { readonly bursts: readonly PlayedBurst[]; readonly problems: readonly SaidProblem[] } {
  const text = readText(file);
  if (text.problem) return { bursts: [], problems: [text.problem] };
  const strokes = strokesIn(text.value);
  return strokes ? { bursts: burstsHeard(strokes), problems: [] } : { bursts: [], problems: [refuse('played-not-read', { file })] };
}

/** The strokes of `listen/1`, or null. */
function strokesIn(text: string): readonly HeardStroke[] | null {
  try {
    const parsed = JSON.parse(text) as { format?: unknown; strokes?: unknown } | null;
    const { format, strokes } = parsed ?? {};
    return format === 'listen/1' && Array.isArray(strokes) && strokes.every(isStroke) ? strokes : null;
  } catch {
    return null;
  }
}

function isStroke(found: unknown): found is HeardStroke {
  const { limb, status, expectedSec, errorMs } = (found ?? {}) as Partial<Record<keyof HeardStroke, unknown>>;
  const known = typeof limb === 'string' && /^[RLKH]$/.test(limb) && typeof status === 'string';
  return known && typeof expectedSec === 'number' && (errorMs === null || typeof errorMs === 'number');
}

/** What an exercise asks beyond that reach, as `exercises/1` tells it. */
export const beyondJson = (
  exercise: Exercise,
  { phrase, at, played }: { readonly phrase: ExerciseContent; readonly at: PlayedAt; readonly played: readonly PlayedBurst[] },
) =>
  beyondSoFar(exercise, phrase, at)
    .map((beyond) => toldBeyond(beyond, played))
    .map((told) => ({ code: told.code, text: say(told), params: told.params }));

/** The reach itself, as `exercises/1` tells it. */
export const reachJson = ({ reach, played }: ReadReach) =>
  toldReach(reach, played).map((told) => ({ text: say(told), ...(told.code === 'reach-so-far' ? told.params : {}) }));
