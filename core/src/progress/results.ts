/** What the diary says came of blocks: by ear where something was heard, else by the player's word. */
import type { DiaryDay, DiaryView, KnownRecord } from '../diary/index.ts';
import type { Exercise } from '../exercise/index.ts';
import type { ExerciseResult } from './tempocurve.ts';

/** What came of one block. */
export interface BlockResult extends ExerciseResult {
  readonly byEar: boolean;
  /** At a tempo of its own, as the phrase to compare with: it says nothing of where work stands. */
  readonly reference: boolean;
  readonly exercise: Exercise;
  /** The tempo was searched for and found: work stands there, whatever was before. It counts no runs. */
  readonly found?: true;
}

type Block = KnownRecord<'block'>;

/** All blocks of the diary, in order of time. */
export const blocksOf = (diary: DiaryView): readonly Block[] =>
  [...diary.days].reverse().flatMap((day) => day.sessions.flatMap((session) => session.blocks));

/** Whether a block with that reason is the phrase at a fixed tempo. */
export const isReferenceCode = (code: string): boolean => REFERENCE.includes(code);

/** Whether a block with that reason is at a tempo of its own. */
export const isAsideCode = (code: string): boolean => ASIDE.includes(code);

/** Whether a block was the phrase at a fixed tempo. */
export const isReference = ({ body }: Block): boolean => isReferenceCode(body.reason?.code ?? '');

/** Whether a block was at a tempo of its own (bursts at the tempo wanted, the player's own music), which says nothing of where work stands. */
const isAside = ({ body }: Block): boolean => isAsideCode(body.reason?.code ?? '');

const REFERENCE: readonly string[] = ['plan-reason-reference', 'plan-reason-check'];
const ASIDE: readonly string[] = ['plan-reason-stuck', 'plan-reason-bursts', 'plan-reason-repertoire'];

/** Results in order of time: by ear where something was heard, else by the player's word; blocks with neither give none. */
export const resultsOf = (diary: DiaryView): readonly BlockResult[] => [...diary.days].reverse().flatMap(resultsOfDay);

/** Ten years have forty thousand blocks, and a day stays the same one until something is written on it. */
const told = new WeakMap<DiaryDay, readonly BlockResult[]>();

function resultsOfDay(day: DiaryDay): readonly BlockResult[] {
  const known = told.get(day);
  if (known) return known;
  const results = day.sessions
    .flatMap(({ blocks }) => blocks)
    .flatMap((block) => (block.body.search ? searchResults(block, block.body.search) : resultsOfBlock(block)));
  told.set(day, results);
  return results;
}

/** Each tempo of a block is a result of its own. */
function resultsOfBlock(block: Block): readonly BlockResult[] {
  const { exercise, tempoBpm, heard, stretches } = block.body;
  const byEar = heard !== null && heard.runCount > 0;
  const counted = byEar ? { clean: heard.cleanRunCount, runs: heard.runCount } : wordOf(block);
  const of = { exerciseId: exercise.id, day: block.day, reference: isReference(block) || isAside(block), exercise: exercise as Exercise };
  if (stretches && stretches.length > 0) return stretches.map((stretch) => ({ ...of, ...stretch }));
  return counted ? [{ ...of, tempoBpm, ...counted, byEar }] : [];
}

/** Each tempo that was tried tells something of the clean tempo, and nothing of where work stands; what was found does. */
function searchResults({ day, body }: Block, steps: NonNullable<Block['body']['search']>): readonly BlockResult[] {
  const exercise = body.exercise as Exercise;
  const of = { exerciseId: exercise.id, exercise, day };
  const tried = steps.map((step) => ({ ...of, ...step, reference: true }));
  return [...tried, { ...of, tempoBpm: body.tempoBpm, clean: 0, runs: 0, byEar: true, reference: false, found: true }];
}

/** A round is one run by the player's word; a block of which only one word is known is one too. */
function wordOf({ body }: Block): { readonly clean: number; readonly runs: number } | null {
  const { playerRounds, playerSays } = body;
  if (playerRounds) {
    const runs = playerRounds.hadIt + playerRounds.again;
    return runs > 0 ? { clean: playerRounds.hadIt, runs } : null;
  }
  return playerSays ? { clean: playerSays === 'hadIt' ? 1 : 0, runs: 1 } : null;
}
