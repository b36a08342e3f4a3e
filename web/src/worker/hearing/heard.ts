/** A recording that is over: heard as a whole, looked through for flaws. */
import type { TakeBody } from '@evenhand/core/diary';
import type { Problem, Reading } from '@evenhand/core/problem';
import { type Heard, hear } from '@evenhand/core/stroke';
import { inspect, type Take } from '@evenhand/core/take';
import type { TakeMeta } from '../../store/take-rows.ts';
import type { HeardTake } from '../protocol.ts';

/** What the ear made of sound, with what is wrong with the sound; a failing ear is a problem too, for the sound is there. */
export interface Listened {
  readonly heard: Heard;
  readonly problems: readonly Problem[];
}

/** What a take's record says of its length and its click. */
export type TakeEnding = Pick<TakeBody, 'durationSec' | 'clicksSec' | 'clickSound'>;

/** Digital silence has no finite volume, and JSON no infinity. */
const FLOOR_DB = -999;

const NOTHING: Heard = { strokes: [], candidates: [] };

export interface Known {
  readonly heard?: Heard | null;
  readonly clickTimesSec?: readonly number[];
  readonly clickVoices?: readonly string[];
}

/**
 * Hears a whole recording.
 * @param take its sound; empty is told as `take-empty`.
 * @param known.heard what the ear gave already while recording, if it did.
 * @param known.clickTimesSec when the click can be heard in it, if that is known; `clickVoices` which of its sounds it was each time.
 */
export function listen(take: Take, known: Known = {}): Listened {
  if (take.samples.length === 0) return { heard: NOTHING, problems: inspect(take) };
  try {
    const heard = known.heard ?? hear(take, { clickTimesSec: known.clickTimesSec ?? [], clickVoices: known.clickVoices ?? [] });
    const times = heard.strokes.map(({ timeSec }) => timeSec);
    return { heard, problems: inspect(take, times) };
  } catch (error) {
    return { heard: NOTHING, problems: [earFailed(error)] };
  }
}

/** The ear's own failure, in words for a drummer who can report it. */
export const earFailed = (error: unknown): Problem => ({ code: 'ear-failed', severity: 'refused', params: { reason: String(error) } });

/** The answer to whoever asked: null when something refuses. */
export function answerOf(take: Omit<HeardTake, keyof Heard>, { heard, problems }: Listened): Reading<HeardTake> {
  const value: HeardTake = { ...take, ...heard };
  return { value: problems.some(({ severity }) => severity === 'refused') ? null : value, problems };
}

/** The body of a take's record. */
export function bodyOf(meta: TakeMeta, { heard, problems }: Listened, { stored, ...ending }: TakeEnding & Pick<TakeBody, 'stored'>): TakeBody {
  const { sampleRateHz, fromFrame, wallMs0, latencySec, latencyFrom } = meta;
  return {
    sessionId: meta.sessionId,
    clock: { sampleRateHz, contextFrame0: fromFrame, wallMs0, latencySec, latencyFrom },
    stored,
    ...ending,
    strokes: heard.strokes.map(({ timeSec, levelDb, confidence, drum }) => ({ timeSec, levelDb: Math.max(FLOOR_DB, levelDb), confidence, drum })),
    problems,
  };
}
