import { describe, expect, test } from 'vitest';
import type { CauseParams } from '../finding/index.ts';
import { glanceOf } from './glance.ts';
import { say } from './say.ts';

/** A cause as a take shows it, nothing but its name and what is said here of it. */
const cause = (params: Partial<CauseParams>) => ({
  code: 'cause-fits',
  params: {
    ...{
      what: 'place:5',
      limb: 'K',
      index: -1,
      partner: -1,
      ofDouble: '',
      only: false,
      time: 'even',
      volume: 'even',
      missed: 0,
      bounced: 0,
      apart: 0,
    },
    ...{ effectMs: 0, effectLowMs: 0, effectHighMs: 0, effectDb: -5, effectLowDb: -6, effectHighDb: -4, strokeCount: 40, alone: false },
    ...params,
  } as CauseParams,
});
const secondKick = { index: 5, partner: 4, ofDouble: 'second', only: true } as const;

describe('after a round a word or two, the head of the sentence (says: issue 8, "clearly softer second", "together")', () => {
  test.each([
    [{ code: 'nothing-stands-out', params: { cycleCount: 12 } }, 'together', /nothing stands out/i],
    [cause({ ...secondKick, volume: 'softer' }), 'second softer', /second kick comes clearly softer/],
    [cause({ ...secondKick, volume: 'softer', effectDb: -1.7 }), 'second softer', /second kick comes a little softer/],
    [cause({ ...secondKick, time: 'early' }), 'second too close', /second kick comes too close to the first/],
    [cause({ ...secondKick, time: 'late' }), 'second too far', /second kick comes too far from the first/],
    [
      cause({ what: 'first-of-double:hands', time: 'late' }),
      'first too close',
      /first stroke of the doubles of the hands comes too close to the second/,
    ],
    [cause({ index: 2, limb: 'R', what: 'place:2', time: 'late' }), 'stroke 3 late', /stroke 3 \(R\) comes late/i],
    [cause({ what: 'limb:L', time: 'early', volume: 'softer' }), 'left early', /^The left comes early/],
    [cause({ what: 'after:foot>hand', missed: 3 }), 'after foot missing', /stroke after the foot is .* missing/],
    [cause({ what: 'after:K>R', time: 'late' }), 'after kick late', /right after the kick comes late/],
    [cause({ what: 'into-accent', volume: 'louder', effectDb: 5 }), 'before accent louder', /before an accent comes clearly louder/],
    [cause({ what: 'bar-place:beat:3', time: 'early' }), 'beat 3 early', /Beat 3 of the bar comes early/],
    [cause({ what: 'together', time: 'early' }), 'apart', /come apart/],
    [cause({ what: 'bounce:second-of-double:K' }), 'one bounce too many', /One bounce too many/],
    [cause({ what: 'rushing', time: 'early' }), 'running ahead', /runs ahead/],
    [cause({ what: 'tiring:all', volume: 'softer' }), 'getting softer', /softer as the take goes on/],
    [{ code: 'block-by-word', params: { hadIt: 2, again: 1 } }, 'had it 2 of 3', /had it in 2 of 3/],
  ])('%#: "%s"', (said, short, sentence) => {
    expect(glanceOf(said)).toBe(short);
    expect(say(said)).toMatch(sentence);
  });
});

test('a take in which nothing can be heard is not heard, whatever the reason; what has no short form has none', () => {
  expect(glanceOf({ code: 'take-silent', severity: 'refused', params: {} })).toBe('not heard');
  expect(glanceOf({ code: 'session-hurt', params: {} })).toBeNull();
});

test('no word is longer than eight letters, so that each is 16′ tall on a phone (arithmetic: 390 px hold eight of half an em of 89 px)', () => {
  const kinds = ['place:1', 'second-of-double:K', 'first-of-double:K', 'limb:H', 'after:hand>hand', 'after-move', 'into-accent', 'out-of-accent'];
  const more = [
    'accent',
    'grace',
    'together',
    'bounce:limb:K',
    'bar-place:bar',
    'bar-place:within:0.33',
    'bar-place:within:0.5',
    'fill',
    'tiring:R',
    'rushing',
  ];
  for (const what of [...kinds, ...more])
    for (const time of ['early', 'late', 'even'] as const)
      for (const volume of ['softer', 'louder', 'even'] as const) {
        const short = glanceOf(cause({ what, time, volume, missed: 1, index: what === 'place:1' ? 11 : -1 }))!;
        for (const word of short.split(' ')) expect(word.length, short).toBeLessThanOrEqual(8);
        expect(short.split(' ').length, short).toBeLessThanOrEqual(4);
      }
});
