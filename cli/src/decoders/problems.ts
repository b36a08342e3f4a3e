/** What can be wrong with a compressed file, as problems of a take. */
import type { Reading } from '@evenhand/core/problem';
import type { TakeProblem } from '@evenhand/core/take';

export const damagedAt = (foundSec: number): TakeProblem => ({ code: 'take-damaged', severity: 'doubtful', at: foundSec, params: { foundSec } });

export const unsupported = (encoding: string): Reading<never, TakeProblem> => ({
  value: null,
  problems: [{ code: 'take-unsupported', severity: 'refused', params: { encoding } }],
});

export const notAudio = (looksLike: string): Reading<never, TakeProblem> => ({
  value: null,
  problems: [{ code: 'take-not-audio', severity: 'refused', params: { looksLike } }],
});
