/** What can be said in a session with the sticks: which command a number of stick clicks is, and when it is listened for. */
import { presentStroke } from './present.ts';
import type { SessionState } from './state.ts';
import type { StickCount } from './stickcount.ts';

/** Whether four clicks give the tempo of what comes, or only say "go". */
export type FourClicks = 'tempo' | 'go';

/** What a player says by key, pedal, screen or sticks. */
export type Command = 'dontCount' | 'repeat' | 'slower' | 'faster' | 'keep' | 'pause' | 'resume' | 'goOn' | 'skip' | 'stop' | 'hurts';

/** A command, with the tempo that was clicked where four clicks mean a tempo. */
export interface SaidCommand {
  readonly command: Command;
  readonly tempoBpm: number | null;
}

/** Clicks that start a session, let it go on, or give a tempo. */
export const GO_CLICKS = 4;

/** From so many on: stop. */
const STOP_CLICKS = 8;

/** From so many on: something hurts. Whoever goes on clicking wants it to end at once; far enough from "stop" not to be a slip in counting. */
const HURTS_CLICKS = 12;

const BY_COUNT: Readonly<Record<number, Command>> = { 2: 'dontCount', 3: 'repeat', 5: 'slower', 6: 'faster', 7: 'keep' };

/**
 * What a count means in a running session; null where nothing is listened for: while the exercise is to be played and in a count-in every knock is music.
 * @param four what four clicks are besides "go".
 */
export function saidBySticks(state: SessionState, { count, tempoBpm, fromFrame }: StickCount, four: FourClicks): SaidCommand | null {
  const resting = state.phase === 'breather' || state.phase === 'paused';
  const plain = state.phase === 'playing' && presentStroke(state, fromFrame).part === 'plain';
  if (!resting && !plain) return null;
  const command =
    count >= HURTS_CLICKS ? 'hurts' : count >= STOP_CLICKS ? stopIn(state) : count === GO_CLICKS ? goIn(state) : (BY_COUNT[count] ?? null);
  return command && { command, tempoBpm: count === GO_CLICKS && four === 'tempo' ? tempoBpm : null };
}

/** The first "stop" only pauses, so that one that was misheard does no harm. */
const stopIn = ({ phase }: SessionState): Command => (phase === 'paused' ? 'stop' : 'pause');

const goIn = ({ phase }: SessionState): Command => (phase === 'paused' ? 'resume' : phase === 'breather' ? 'goOn' : 'skip');
