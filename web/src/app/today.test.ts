import { expectedCycle } from '@evenhand/core/exercise';
import { FEET_ANSWERS, type FeetAnswer, withoutFeet } from '@evenhand/core/plan';
import type { Statement } from '@evenhand/core/problem';
import { describe, expect, test } from 'vitest';
import { emptyPhrase } from './phrase.ts';
import { materialOf, planFor, usualPlan } from './planning.ts';
import { asPlanned, fitDay, runningBlocks, todayBlocks } from './today.ts';

const material = materialOf({ ...emptyPhrase, sticking: 'RLRLKK', tempo: '92' }, { first: 4, last: 5 })!;
const session = planFor(material, usualPlan('2026-01-05', 92), []).value!.sessions[0]!;
const options = { exercises: material.exercises, nameOf: (title: Statement, how: string) => `${title.code} ${how}` };
const blocksFor = (change: Partial<typeof asPlanned>) => {
  const { today, exercises } = fitDay(session, { ...asPlanned, ...change }, options);
  const blocks = today.session ? todayBlocks(today.session, exercises) : [];
  return { today, blocks, running: runningBlocks(blocks, today) };
};

test('as planned, nothing changes and nothing is said', () => {
  const { today, blocks } = blocksFor({});
  expect(today.session).toBe(session);
  expect(today.changes).toEqual([]);
  expect(blocks).toHaveLength(session.blocks.length);
});

test('five minutes are five; tired hands play half the work and slower (JOB.md)', () => {
  expect(blocksFor({ length: 'fiveMinutes' }).today.session!.minutes).toBe(5);
  const tired = blocksFor({ length: 'handsTired' }).today.session!;
  expect(tired.minutes).toBeLessThan(session.minutes);
  const work = tired.blocks.filter(({ part }) => part === 'work');
  expect(work.every(({ exerciseId, tempoBpm }) => session.blocks.some((block) => block.exerciseId === exerciseId && tempoBpm < block.tempoBpm))).toBe(
    true,
  );
});

describe('only a pad', () => {
  test('asks what the feet play on before anything else (JOB.md)', () => {
    expect(blocksFor({ onlyPad: true }).today.asks).toEqual(FEET_ANSWERS);
  });

  test.each(FEET_ANSWERS)('%s: every block is there, on one drum for the hands', (feet: FeetAnswer) => {
    const { today, blocks } = blocksFor({ onlyPad: true, feet });
    expect(today.asks).toEqual([]);
    expect(blocks.map(({ planned }) => planned.minutes)).toEqual(session.blocks.map(({ minutes }) => minutes));
    for (const { exercise } of blocks) {
      const hands = expectedCycle(exercise).strokes.filter(({ limb }) => 'RL'.includes(limb));
      expect(new Set(hands.map(({ surface }) => surface)).size).toBeLessThanOrEqual(1);
      if (feet === 'movedToHands' || feet === 'handsOnly') expect(exercise.sticking).not.toMatch(/[KH]/);
    }
  });

  test('feet on the floor are judged by the player’s word, never by an ear that cannot hear them (JOB.md)', () => {
    const { running } = blocksFor({ onlyPad: true, feet: 'footOnFloor' });
    const judged = running.filter(({ judgedBy }) => judgedBy !== 'nobody');
    expect(judged.length).toBeGreaterThan(0);
    for (const { exercise, judgedBy } of judged) expect(judgedBy).toBe(/[KH]/.test(exercise.sticking) ? 'word' : 'ear');
  });
});

test('the warm-up is judged by nobody, and only reference takes keep their tempo (JOB.md)', () => {
  const { blocks, running } = blocksFor({});
  expect(running.map(({ judgedBy }) => judgedBy === 'nobody')).toEqual(blocks.map(({ planned }) => planned.part === 'warmUp'));
  expect(running.map(({ fixedTempo }) => fixedTempo)).toEqual(blocks.map(({ planned }) => planned.part === 'reference'));
});

test.each([
  { text: 'RLRLKK', feet: 'movedToHands', gives: 'RLRLRRLRLRLL' },
  { text: 'RLRKK', feet: 'movedToHands', gives: 'RLRLL' },
  { text: 'KKRL', feet: 'movedToHands', gives: 'RRLRLLRL' },
  { text: 'R+KLRL', feet: 'movedToHands', gives: 'RLRL' },
  { text: 'RLRLKK', feet: 'handsOnly', gives: 'RLRL--' },
  { text: 'K+R>L(K)H', feet: 'handsOnly', gives: 'R>L--' },
  { text: 'R>KL', feet: 'movedToHands', gives: 'R>LL' },
] as const)('$text with feet $feet is $gives (arithmetic: the hand that did not play before)', ({ text, feet, gives }) => {
  expect(withoutFeet(text, feet)).toBe(gives);
});

test('quiet hours ask for the feet, and are soft on a pad; a slow day keeps its minutes (issue 7)', () => {
  expect(blocksFor({ quiet: true }).today.asks).toEqual(FEET_ANSWERS);
  const quiet = blocksFor({ quiet: true, feet: 'handsOnly' }).today;
  expect(quiet.changes.map(({ code }) => code)).toContain('plan-quiet');
  expect(quiet.session!.blocks.map(({ part }) => part)).not.toContain('reference');
  expect(blocksFor({ length: 'slowDay' }).today.session!.minutes).toBe(12);
});

test('a fortnight away: slower, nothing new, said once; and with five minutes both are said (issue 7)', () => {
  const fit = (length: 'planned' | 'fiveMinutes') => fitDay(session, { ...asPlanned, length }, { ...options, daysAway: 14 }).today;
  expect(fit('planned').changes.map(({ code }) => code)).toEqual(['plan-back']);
  expect(fit('planned').session!.blocks.at(-1)!.tempoBpm).toBeLessThan(session.blocks.at(-1)!.tempoBpm);
  expect(fit('fiveMinutes').changes.map(({ code }) => code)).toContain('plan-minutes-changed');
});

test('a block in bursts is played in short rounds at its own tempo and moves no other; a cap goes with its block (issue 7)', () => {
  const planned = { ...session.blocks[1]!, part: 'work', way: 'bursts', capBpm: 100 } as const;
  const exercise = material.exercises.find(({ id }) => id === planned.exerciseId)!;
  expect(runningBlocks([{ planned, exercise }], { feetHeard: true })[0]).toMatchObject({ fixedTempo: true, rounds: 'short', capBpm: 100 });
});
