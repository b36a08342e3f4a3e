/** The script of five weeks: what happens on each evening that was planned for practice. What the diary says is held against this. */

export interface Evening {
  readonly day: string;
  /** Minutes after midnight of that day; past 1440 it is night already, and the practice day still lasts. */
  readonly at: number;
  /**
   * missed: no session. byWord: all of it, with the player's own word. pad: the same with a pad only. microphone: one round of one block is heard.
   * cutOff: the page is closed in the middle, opened again, and the rest is played.
   */
  readonly what: 'missed' | 'byWord' | 'pad' | 'microphone' | 'cutOff';
  /** Written in the diary afterwards. */
  readonly line?: string;
}

const BEFORE_THE_SHOW = 18 * 60 + 10;
const AFTER_THE_SHOW = 23 * 60 + 5;
const PAST_MIDNIGHT = 24 * 60 + 40;

/** Five weeks from Monday, 3 March 2031, in Berlin, where the clocks change in the night to 30 March: Mondays, Tuesdays, Wednesdays, Fridays, Saturdays. */
export const EVENINGS: readonly Evening[] = [
  { day: '2031-03-03', at: BEFORE_THE_SHOW, what: 'microphone', line: 'The second kick runs away from me.' },
  { day: '2031-03-04', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-03-05', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-03-07', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-03-08', at: PAST_MIDNIGHT, what: 'byWord', line: 'Heel up, after two shows.' },
  { day: '2031-03-10', at: BEFORE_THE_SHOW, what: 'byWord' },
  { day: '2031-03-11', at: BEFORE_THE_SHOW, what: 'missed' },
  { day: '2031-03-12', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-03-14', at: BEFORE_THE_SHOW, what: 'pad', line: 'Hotel room, pad on the bed.' },
  { day: '2031-03-15', at: PAST_MIDNIGHT, what: 'byWord' },
  { day: '2031-03-17', at: BEFORE_THE_SHOW, what: 'microphone' },
  { day: '2031-03-18', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-03-19', at: AFTER_THE_SHOW, what: 'cutOff', line: 'The battery died.' },
  { day: '2031-03-21', at: BEFORE_THE_SHOW, what: 'missed' },
  { day: '2031-03-22', at: BEFORE_THE_SHOW, what: 'missed' },
  { day: '2031-03-24', at: BEFORE_THE_SHOW, what: 'byWord' },
  // From here on in another profile.
  { day: '2031-03-25', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-03-26', at: AFTER_THE_SHOW, what: 'missed' },
  { day: '2031-03-28', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-03-29', at: PAST_MIDNIGHT, what: 'byWord' },
  { day: '2031-03-31', at: BEFORE_THE_SHOW, what: 'byWord' },
  { day: '2031-04-01', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-04-02', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-04-04', at: AFTER_THE_SHOW, what: 'byWord' },
  { day: '2031-04-05', at: BEFORE_THE_SHOW, what: 'microphone', line: 'It sits.' },
];

/** The evening before which the diary moves to another profile. */
export const MOVES_ON = '2031-03-25';
