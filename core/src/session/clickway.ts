/** A way of clicking from JSON that may have been kept in a file or edited by hand: checked here, trusted everywhere else. */
import { CLICK_SOUNDS, type ClickSound } from '../sound/index.ts';
import type { ClickPlace, ClickWay } from './layout.ts';

const PLACES: readonly ClickPlace[] = ['beats', 'offBeats', 'twoAndFour', 'one', 'everySecondBar', 'none'];

/** Most clicks in a beat, and most bars in a row that sound or are silent. Assumptions: 32nds; longer silences lose everybody. */
const MOST_PER_BEAT = 8;
const MOST_BARS = 16;

/** Louder or softer than usual at most, dB. Assumption: beyond, it is either not heard or hurts. */
const MOST_GAIN_DB = 12;

/** Reads a way of clicking; what is not known or out of range in it is as if it had not been said. Null when nothing is left. */
export function readClickWay(json: unknown): ClickWay | null {
  if (typeof json !== 'object' || json === null) return null;
  const { place, perBeat, swing, accents, bars, gainDb, sound } = json as Readonly<Record<string, unknown>>;
  const way: ClickWay = {
    ...(PLACES.includes(place as ClickPlace) ? { place: place as ClickPlace } : {}),
    ...(isWhole(perBeat, 1, MOST_PER_BEAT) ? { perBeat } : {}),
    ...(typeof swing === 'number' && swing >= 0.5 && swing < 1 ? { swing } : {}),
    ...(isListOfBeats(accents) ? { accents } : {}),
    ...(isBars(bars) ? { bars: { sounding: bars.sounding, silent: bars.silent } } : {}),
    ...(typeof gainDb === 'number' && Math.abs(gainDb) <= MOST_GAIN_DB ? { gainDb } : {}),
    ...(CLICK_SOUNDS.includes(sound as ClickSound) ? { sound: sound as ClickSound } : {}),
  };
  return Object.keys(way).length > 0 ? way : null;
}

const isWhole = (value: unknown, least: number, most: number): value is number =>
  Number.isInteger(value) && (value as number) >= least && (value as number) <= most;

const isListOfBeats = (value: unknown): value is readonly number[] => Array.isArray(value) && value.every((beat) => isWhole(beat, 0, 63));

const isBars = (value: unknown): value is NonNullable<ClickWay['bars']> => {
  const { sounding, silent } = (value ?? {}) as Readonly<Record<string, unknown>>;
  return isWhole(sounding, 1, MOST_BARS) && isWhole(silent, 0, MOST_BARS);
};
