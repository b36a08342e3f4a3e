/** Click bleed in made takes: what it does to the strokes' times, and what is left of that when the ear is told of it. */
import { describe, expect, it } from 'vitest';
import { inRoom } from '../player/room.ts';
import { seededRandom } from '../random.ts';
import { type ClickSound, renderClick } from '../sound/index.ts';
import { fileClock } from '../take/index.ts';
import { type EarOptions, hear } from './index.ts';

const RATE = 44_100;
const BEATS = 32;
/** Three bars nobody plays in: the count-in, and a bar of rest. */
const QUIET = 12;
const LATENCY_SEC = 0.0532;

/** Eight bars of soft eighths on a pad at 110, each within ±8 ms of the click, whose bleed is 20 dB under the loudest strokes. */
function takeWithBleed(bleedDb: number, quietBeats: number, sound?: ClickSound) {
  const random = seededRandom(11);
  const bipolar = () => 2 * random() - 1;
  const beatSec = 60 / 110;
  const samples = Float32Array.from({ length: Math.round((1 + BEATS * beatSec) * RATE) }, () => 0.0004 * bipolar());
  const truth = Array.from({ length: 2 * BEATS - 1 }, (_, k) => 0.4 + LATENCY_SEC + (k * beatSec) / 2 + 0.008 * bipolar());
  for (const [k, sec] of truth.entries()) {
    const at = Math.round(sec * RATE);
    if (k < 2 * quietBeats) continue;
    const gain = k % 4 === 0 ? 0.5 : 0.06;
    for (let i = 0; i < 2600; i++) samples[at + i]! += gain * (i === 0 ? 0.9 : bipolar()) * Math.exp(-i / 400);
  }
  const voices = Array.from({ length: BEATS }, (_, k) => (k % 4 === 0 ? 'bar' : 'beat') as 'bar' | 'beat');
  const clickTimesSec = voices.map((_, k) => 0.4 + LATENCY_SEC + k * beatSec);
  const loudest = Math.max(...renderClick('bar', RATE));
  for (const [k, voice] of voices.entries()) {
    const at = Math.round(clickTimesSec[k]! * RATE);
    renderClick(voice, RATE, sound).forEach((value, i) => {
      if (at + i < samples.length) samples[at + i]! += (value / loudest) * 0.5 * 10 ** (bleedDb / 20);
    });
  }
  return { take: { samples, clock: fileClock(RATE) }, truth, clickTimesSec, clickVoices: voices as readonly string[] };
}

type Made = ReturnType<typeof takeWithBleed>;
type Told = (made: Made) => Omit<EarOptions, 'sampleRateHz'>;

/** SD of heard − true in ms over the strokes of the last five bars heard within 25 ms of where they were, and the share of them that were. */
function sdMs(made: Made, told: Told): { readonly sd: number; readonly share: number } {
  const played = made.truth.slice(2 * QUIET);
  const heard = hear(made.take, told(made)).strokes.map(({ timeSec }) => timeSec);
  const errors = played.flatMap((sec) => {
    const nearest = heard.reduce((best, other) => (Math.abs(other - sec) < Math.abs(best - sec) ? other : best), Number.POSITIVE_INFINITY);
    return Math.abs(nearest - sec) < 0.025 ? [1000 * (nearest - sec)] : [];
  });
  const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  return { sd: Math.sqrt(errors.reduce((sum, error) => sum + (error - mean) ** 2, 0) / errors.length), share: errors.length / played.length };
}

const nothing: Told = () => ({});
const asOne: Told = ({ clickTimesSec }) => ({ clickTimesSec });
const byVoice: Told = ({ clickTimesSec, clickVoices }) => ({ clickTimesSec, clickVoices });

describe('a click 20 dB under the strokes', () => {
  it('spoils the times of soft strokes, and told of it voice by voice the ear has them back within .3 ms (says: EAR.md 7)', () => {
    const made = takeWithBleed(-20, QUIET);
    const [spoilt, one, restored] = [sdMs(made, nothing), sdMs(made, asOne), sdMs(made, byVoice)];
    expect(spoilt.sd).toBeGreaterThan(1);
    expect(restored.sd).toBeLessThan(0.3);
    expect(restored.share).toBe(1);
    expect(one.sd).toBeGreaterThan(restored.sd);
  });

  it.each(['bright', 'rustle'] as const)('the same for the %s (says: EAR.md 7; the other figures: bench/click)', (sound) => {
    const restored = sdMs(takeWithBleed(-20, QUIET, sound), byVoice);
    expect(restored.sd).toBeLessThan(0.3);
    expect(restored.share).toBe(1);
  });

  it('in a room that rings on after it is no stroke where the part that is taken out ends (says: nobody plays in the count-in)', () => {
    const { take, clickTimesSec, clickVoices } = takeWithBleed(-10, QUIET);
    const room = { decaySec: 0.3, directDb: 6, delaySec: 0.004 };
    const samples = inRoom(take.samples, { room, sampleRateHz: RATE, random: seededRandom(31) });
    const { strokes } = hear({ ...take, samples }, { clickTimesSec, clickVoices });
    // The soft strokes of this take lie near −36 dB. What is 20 dB softer, in a room as quiet as this one, counts for none of them.
    expect(strokes.filter(({ timeSec, levelDb }) => timeSec < clickTimesSec[QUIET]! - 0.05 && levelDb > -56)).toEqual([]);
    expect(strokes.length).toBeGreaterThan(30);
  });

  it('where every click is played at, so that its sound is hardly known, it spoils no more for being told (says: the same take, told nothing)', () => {
    const made = takeWithBleed(-20, 0);
    const [untold, told] = [sdMs(made, nothing), sdMs(made, byVoice)];
    expect(told.sd).toBeLessThan(untold.sd);
    expect(told.share).toBeGreaterThanOrEqual(untold.share);
  });

  it('a click that is told but not there changes no time (says: the same take, told nothing)', () => {
    const made = takeWithBleed(-200, QUIET);
    const times = (told: Told) => hear(made.take, told(made)).strokes.map(({ timeSec }) => timeSec);
    expect(times(byVoice)).toEqual(times(nothing));
  });
});
