/** The strokes of the feet given to the hands, for a day without a pedal. */
import { SLOT_LIMIT } from './parameters.ts';
import { readSticking } from './read.ts';

/** Two strokes of one hand in a row are a double; three are what no hand likes in a fast phrase. */
const LONGEST_RUN = 2;

/**
 * A sticking without feet. A foot beside a hand is dropped; a run of feet goes to the hand that did not play before it, one of three or more from
 * hand to hand. Where that would give one hand three in a row, the hands change over: what follows is led by the other one, and a cycle that
 * does not meet its own beginning is written twice, the second time mirrored. So `RLRLKK` is RLRLRRLRLRLL, the double paradiddle.
 * @param text a sticking; any text is given back in some form, for the reader to judge.
 */
export function feetToHands(text: string): string {
  const alone = text.replaceAll(/\+(>?\(?[KH]\)?[/z]?)/g, '').replaceAll(/(>?\(?[KH]\)?[/z]?)\+/g, '');
  const moved = changedOver(alone);
  const slotCount = readSticking(moved).value?.slotCount ?? SLOT_LIMIT;
  const meets = longestRun(moved + moved) <= Math.max(LONGEST_RUN, longestRun(moved));
  return meets || !/[RL]/.test(alone) || 2 * slotCount > SLOT_LIMIT ? moved : moved + mirrored(moved);
}

const other = (hand: string): string => (hand === 'R' ? 'L' : 'R');
const mirrored = (text: string): string => text.replaceAll(/[RLrl]/g, (letter) => ({ R: 'L', L: 'R', r: 'l' })[letter] ?? 'r');

/** One cycle: runs of feet given away, the hands after them changed over where three would come together. */
function changedOver(text: string): string {
  const before = text.match(/[RL]/g)?.at(-1) ?? 'L';
  const pieces = text.match(/(?:>?\(?[KH]\)?[/z]?\s*)+|[^KH>(]+|[>(]/g) ?? [];
  let done = '';
  let swapped = false;
  for (const [i, piece] of pieces.entries()) {
    const last = done.match(/[RL]/g)?.at(-1) ?? before;
    if (/[KH]/.test(piece)) done += given(piece, other(last));
    else {
      const own = swapped ? mirrored(piece) : piece;
      const follows = i > 0 && /[KH]/.test(pieces.slice(0, i).join('').replaceAll(/[>(]/g, '').slice(-2));
      const tooLong = follows && longestRun(done + own) > Math.max(LONGEST_RUN, longestRun(done), longestRun(own));
      if (tooLong) swapped = !swapped;
      done += tooLong ? mirrored(own) : own;
    }
  }
  return done;
}

/** A run of feet in the hands: all in one, a longer one from hand to hand. */
function given(run: string, hand: string): string {
  const count = run.match(/[KH]/g)!.length;
  let k = 0;
  return run.replaceAll(/[KH]/g, () => (count > LONGEST_RUN && k++ % 2 === 1 ? other(hand) : hand));
}

/** Most strokes of one hand without another stroke or a rest between; a diddle is two. */
function longestRun(text: string): number {
  const letters = text.replaceAll(/([RLKH])\)?\//g, '$1$1').replaceAll(/[^RLKH-]/g, '');
  return Math.max(0, ...(letters.match(/R+|L+/g) ?? []).map(({ length }) => length));
}
