/** Keys that steer a session: a keyboard's, and those a page-turn pedal sends. */
import type { SessionEvent, SessionState } from '@evenhand/core/session';

type Steering = Exclude<SessionEvent['kind'], 'measured' | 'glanced' | 'tick' | 'start' | 'tempo'>;

interface KeyPress {
  readonly key: string;
  readonly repeat: boolean;
  readonly target: EventTarget | null;
}

/**
 * Whether a key starts the session: a pedal's page key and its arrow wherever the focus is, in the players' panel too, unless the control that has it does
 * something with the arrow, and not in the settings, which are read with these keys; Enter and space only in the screen itself, and where the control does
 * nothing with them. A box to be ticked goes by space alone, so Enter on it is the page's own: start. @source [AriaPractices]
 */
export function meansStart({ key, repeat, target }: KeyPress): boolean {
  const uses = USES[key];
  return !repeat && uses !== undefined && !isA(target, uses) && !isA(target, PEDAL.includes(key) ? SETTINGS : ELSEWHERE);
}

/** Whether a key ends typing in a field, so that the next one starts: what was typed counts first. */
export const endsTyping = ({ key, repeat, target }: KeyPress): boolean => !repeat && key === 'Enter' && isA(target, TYPED);

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
const PEDAL: readonly string[] = ['PageDown', 'ArrowRight'];
const SETTINGS = '[aria-labelledby="settings"] *';
/** In the header and what it opens, keys that buttons and fields know are for what stands there. */
const ELSEWHERE = ':not(html, body, main, main *)';
const TYPED = 'input:not([type=checkbox], [type=radio], [type=range], [type=file])';
/** What by the ARIA practices does something with a key of its own. */
const USES: Readonly<Record<string, string>> = {
  PageDown: 'textarea',
  ArrowRight: `${TYPED}, [type=radio], [type=range], select, textarea, [contenteditable], [tabindex="0"]`,
  Enter: `${TYPED}, [type=file], button, a, select, textarea, summary, [contenteditable]`,
  ' ': CONTROLS,
};

const isA = (target: EventTarget | null, selector: string): boolean => (target as Partial<Element> | null)?.matches?.(selector) ?? false;

const isControl = (target: EventTarget | null): boolean => isA(target, CONTROLS);
