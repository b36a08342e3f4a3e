/** Keys that steer a session: a keyboard's, and those a page-turn pedal sends. */
import type { SessionEvent, SessionState } from '@evenhand/core/session';

type Steering = Exclude<SessionEvent['kind'], 'measured' | 'glanced' | 'tick' | 'start' | 'tempo'>;

interface KeyPress {
  readonly key: string;
  readonly repeat: boolean;
  readonly target: EventTarget | null;
}

/** Whether a key starts the session: page down always, space and Enter unless they belong to a control that has the focus. */
export const meansStart = ({ key, repeat, target }: KeyPress): boolean =>
  !repeat && (key === 'PageDown' || ([' ', 'Enter'].includes(key) && !isControl(target)));

/**
 * What a key means while a session runs, or null. Space stays with a focused button.
 * @param byWord whether the player's word counts now: then H and the upward key of a pedal say "had it", A and the downward one "again".
 */
export function meantBy(press: KeyPress, phase: SessionState['phase'], byWord: 'byWord' | null = null): Steering | null {
  if (press.repeat || phase === 'ended' || phase === 'ready') return null;
  if ([' ', 'Enter'].includes(press.key) && isControl(press.target)) return null;
  const word = byWord && WORDS[press.key];
  if (word) return word;
  switch (press.key) {
    case ' ':
    case 'Enter':
      return phase === 'paused' ? 'resume' : 'pause';
    // A pedal has two keys: back pauses first, as the sticks' stop does, and once more ends.
    case 'PageUp':
    case 'ArrowLeft':
      return phase === 'paused' ? 'stop' : 'pause';
    case 'PageDown':
    case 'ArrowRight':
      return phase === 'paused' ? 'resume' : 'skip';
    case 'x':
    case 'X':
      return 'dontCount';
    case 'Escape':
      return 'stop';
    case 'p':
    case 'P':
      return 'hurts';
    default:
      return COMMANDS[press.key] ?? null;
  }
}

const WORDS: Readonly<Record<string, 'hadIt' | 'again'>> = { h: 'hadIt', H: 'hadIt', ArrowUp: 'hadIt', a: 'again', A: 'again', ArrowDown: 'again' };

/** A pedal's upward and downward keys move the tempo where they say no word. */
const COMMANDS: Readonly<Record<string, 'repeat' | 'faster' | 'slower' | 'keep' | 'goOn'>> = {
  ...{ r: 'repeat', R: 'repeat', k: 'keep', K: 'keep', g: 'goOn', G: 'goOn' },
  ...{ '+': 'faster', '=': 'faster', ArrowUp: 'faster', '-': 'slower', ArrowDown: 'slower' },
};

const CONTROLS = 'button, a, input, select, textarea, summary, [contenteditable]';

const isControl = (target: EventTarget | null): boolean => (target as Partial<Element> | null)?.matches?.(CONTROLS) ?? false;
