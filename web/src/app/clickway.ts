/** How long the click takes from this device's loudspeaker to its microphone, measured once and kept apart from the diary, because it belongs to the device. */
import type { Engine } from '../audio/engine.ts';
import type { TakeMeta } from '../worker/protocol.ts';

type Clock = Pick<TakeMeta, 'latencySec' | 'latencyFrom'>;

const KEY = 'evenhand-click-way';

const UNKNOWN: Clock = { latencySec: 0, latencyFrom: 'unknown' };

/** One way per microphone and sample rate: another of either has another way. */
const nameOf = ({ microphone, sampleRateHz }: Engine): string => `${microphone?.deviceId ?? ''} ${microphone?.label ?? ''} ${sampleRateHz}`;

/** What is known of an open engine's click; unknown until it was measured here. */
export function clickWayOf(engine: Engine): Clock {
  const latencySec = kept()[nameOf(engine)];
  return typeof latencySec === 'number' && latencySec >= 0 && latencySec < 2 ? { latencySec, latencyFrom: 'loopback' } : UNKNOWN;
}

/** Keeps a measured way for this device. */
export function keepClickWay(engine: Engine, latencySec: number): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...kept(), [nameOf(engine)]: latencySec }));
  } catch {
    // A browser that keeps nothing measures it by the click's bleed, where that is heard.
  }
}

function kept(): Readonly<Record<string, unknown>> {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? '{}');
    return found !== null && typeof found === 'object' ? (found as Record<string, unknown>) : {};
  } catch {
    return {};
  }
}
