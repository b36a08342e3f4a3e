import { describe, expect, test } from 'vitest';
import { noteValue, say, tempoName } from './index.ts';

/** American and British names: a crotchet is a quarter note, each further name halves it. */
const NAMES = [
  { perBeat: 1, american: 'quarters', british: 'crotchets', says: 'common practice, no source' },
  { perBeat: 2, american: '8ths', british: 'quavers', says: 'common practice, no source' },
  { perBeat: 4, american: '16ths', british: 'semiquavers', says: 'common practice, no source' },
  { perBeat: 8, american: '32nds', british: 'demisemiquavers', says: 'common practice, no source' },
  { perBeat: 3, american: 'triplets', british: 'triplets', says: 'common practice, no source' },
] as const;

describe('note values by either name', () => {
  test.each(NAMES)('$perBeat to the beat are $american or $british ($says)', ({ perBeat, american, british }) => {
    expect(noteValue(perBeat)).toBe(american);
    expect(noteValue(perBeat, 'british')).toBe(british);
    expect(tempoName(96, perBeat, 'british')).toBe(`${british} at 96`);
  });

  test('a sentence takes the names of its language', () => {
    const aim = { code: 'plan-aim-learn', params: { tempoBpm: 72, perBeat: 4 } };
    expect(say(aim)).toContain('16ths at 72');
    expect(say(aim, 'en-GB')).toContain('semiquavers at 72');
    expect(say(aim, 'en-GB')).not.toContain('16ths');
  });
});
