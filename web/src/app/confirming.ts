/** The sound that answers a command, so that one that was misheard is known at once: as many soft tones as were clicked, or two that go up, down or stay. */
import type { Command } from '@evenhand/core/session';
import { amplitudeOfDb, frameOfSec } from '@evenhand/core/units';

/** What is answered by a sound: a command, a word for a round, the start; and what comes next. */
export type Answer = Command | 'start' | 'hadIt' | 'again' | 'next';

/** Above and below the tone in the middle, in half tones. */
const WAYS: Readonly<Record<Answer, readonly number[]>> = {
  start: [0, 4, 7],
  dontCount: [0, -1],
  repeat: [0, 4, 0],
  slower: [0, -4],
  faster: [0, 4],
  keep: [7, 7],
  pause: [0, -5, -12],
  resume: [0, 4, 7],
  goOn: [0, 4, 7],
  skip: [0, 7],
  stop: [0, -5, -12],
  hadIt: [4, 4],
  again: [0, 0],
  next: [0, 5],
  hurts: [0, -5, -12],
};

/** Assumption: lower than the click, so that it is never taken for it. */
const MIDDLE_HZ = 392;
const PEAK_DB = -12;
const [TONE_SEC, GAP_SEC, DECAY_SEC] = [0.16, 0.14, 0.05];

/** @returns mono samples, full scale ±1. */
export function confirmation(command: Answer, sampleRateHz: number): Float32Array<ArrayBuffer> {
  const ways = WAYS[command];
  const sound = new Float32Array(frameOfSec(GAP_SEC * (ways.length - 1) + TONE_SEC, sampleRateHz));
  ways.forEach((halfTones, k) => {
    const hz = MIDDLE_HZ * 2 ** (halfTones / 12);
    const from = frameOfSec(k * GAP_SEC, sampleRateHz);
    for (let i = 0; i < frameOfSec(TONE_SEC, sampleRateHz); i++) {
      const sec = i / sampleRateHz;
      const shape = Math.min(1, sec / 0.004) * Math.exp(-sec / DECAY_SEC);
      sound[from + i]! += amplitudeOfDb(PEAK_DB) * shape * Math.sin(2 * Math.PI * hz * sec);
    }
  });
  return sound;
}
