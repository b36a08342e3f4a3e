/** Labels of steering a session: a part of the one table (labels.ts), kept apart because only a session's screens need it. */
import type { Settings } from './settings.ts';

const startBy: Readonly<Record<Settings['startBy'], string>> = {
  touch: 'key, pedal or screen',
  go: 'four stick clicks too',
  tempo: 'four stick clicks too, at their tempo',
};

export const steeringLabels = {
  startBy: 'Start by',
  startNames: startBy,
  listening: 'Listening for four stick clicks. The microphone is open.',
  asked: 'The browser has not allowed the microphone yet. Press Start once; from then on four stick clicks start.',
  repeat: 'Again',
  slower: 'Slower',
  faster: 'Faster',
  keep: 'Keep that',
  goOn: 'Go on now',
  bySticks: 'Sticks in a rest: 2 not that one · 3 again · 4 go · 5 slower · 6 faster · 7 keep · 8 stop',
  keys: 'Space pauses · Page Down next · R again · + − tempo · X does not count · K keep · Escape stops',
} as const;
