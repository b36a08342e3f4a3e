/** The click's way into a take: found by its own bleed when that is heard, else as the loopback told it once for this device. */
import type { Problem } from '@evenhand/core/problem';
import { type ClickKind, type ClickSound, renderClick } from '@evenhand/core/sound';
import type { Heard } from '@evenhand/core/stroke';
import { type ClickLatency, clickLatency, LOOPBACK_SPREAD_MOST_SEC, type SentClick } from '@evenhand/core/take';
import type { TakeMeta } from '../../store/take-rows.ts';
import type { ToldClicks } from '../protocol.ts';

/** Where the click's sound comes from and how long it takes; `heard` when it can be heard in the take. */
export interface Way {
  readonly clock: Pick<TakeMeta, 'latencySec' | 'latencyFrom'>;
  readonly heard: ClickLatency | null;
}

/** Clicks looked for at most: those of the count-in and the first minutes tell enough. */
const LOOKED_FOR = 64;

/** @param samples of the take, from its first frame. */
export function wayOf(meta: TakeMeta, samples: Float32Array, { clicksSec, clickVoices, clickSound }: ToldClicks): Way {
  const { sampleRateHz } = meta;
  const sounds = soundsAt(sampleRateHz, clickSound);
  const sent = clicksSec.slice(0, LOOKED_FOR).map((sec, i) => ({ frame: Math.round(sec * sampleRateHz), sound: sounds(clickVoices?.[i] ?? 'beat') }));
  const heard = steady(clickLatency(samples, sampleRateHz, sent));
  return heard ? { clock: { latencySec: heard.latencySec, latencyFrom: 'bleed' }, heard } : { clock: meta, heard: null };
}

/** Clicks that scatter tell nothing. */
const steady = (found: ClickLatency | null): ClickLatency | null => (found && found.spreadSec <= LOOPBACK_SPREAD_MOST_SEC ? found : null);

/** The same samples for the same voice, which is how clicks of one sound are known. */
function soundsAt(sampleRateHz: number, clickSound?: ClickSound): (voice: ClickKind) => Float32Array {
  const made = new Map<ClickKind, Float32Array>();
  return (voice) => {
    const sound = made.get(voice) ?? renderClick(voice, sampleRateHz, clickSound);
    made.set(voice, sound);
    return sound;
  };
}

/** Clicks as they are looked for, in frames from `fromFrame`. */
export const sentClicks = (
  clicks: readonly { readonly frame: number; readonly voice: ClickKind }[],
  { fromFrame, sampleRateHz, clickSound }: { readonly fromFrame: number; readonly sampleRateHz: number; readonly clickSound: ClickSound | undefined },
): SentClick[] => {
  const sounds = soundsAt(sampleRateHz, clickSound);
  return clicks.map(({ frame, voice }) => ({ frame: frame - fromFrame, sound: sounds(voice) }));
};

/** Share of the strokes that count as the soft ones, and how far under them a click may come before it is in their way. Assumption. */
const SOFT_SHARE = 0.2;
const UNDER_SOFT_DB = 10;

/** Asks for headphones when the click is heard nearly as loud as the softer strokes. */
export function headphonesWord({ heard }: Way, { strokes }: Heard): readonly Problem[] {
  const levels = strokes.map(({ levelDb }) => levelDb).sort((a, b) => a - b);
  const soft = levels[Math.floor(SOFT_SHARE * levels.length)];
  if (!heard || soft === undefined || heard.levelDb < soft - UNDER_SOFT_DB) return [];
  return [{ code: 'take-click-heard', severity: 'doubtful', params: { underDb: soft - heard.levelDb } }];
}
