/** The year of an invented drummer of a village dance band: doubles of the left hand, one phrase closed, one put aside, one still open. */
import type { ExpectedCycle } from '../../core/src/exercise/index.ts';
import type { Fault } from '../../core/src/player/index.ts';
import { toNumber } from '../../core/src/rational.ts';
import { beatSec, msOfSec } from '../../core/src/units.ts';
import type { Story } from './story.ts';

const YEAR_DAYS = 364;

/** How late and how soft the second of two lefts comes at first when they are so far apart; how steeply both grow, and what is left after a session. Our choice: a fault that is clearly heard. */
const LEFTS = { lateMs: 26, softDb: 4, spaceMs: 170, steepness: 2.5, leftPerSession: 0.95, leastShare: 0.1 };

/** The second of two lefts in a row drags and is soft. */
function lateLefts(cycle: ExpectedCycle, { tempoBpm, sessions }: { readonly tempoBpm: number; readonly sessions: number }): readonly Fault[] {
  const lengthBeats = toNumber(cycle.lengthBeats);
  return cycle.strokes.flatMap((stroke, k) => {
    const before = cycle.strokes.at(k - 1)!;
    if (stroke.limb !== 'L' || before.limb !== 'L' || before === stroke) return [];
    const gapBeats = (toNumber(stroke.beat) - toNumber(before.beat) + lengthBeats) % lengthBeats || lengthBeats;
    const share = (LEFTS.spaceMs / msOfSec(gapBeats * beatSec(tempoBpm))) ** LEFTS.steepness * LEFTS.leftPerSession ** sessions;
    return share < LEFTS.leastShare ? [] : [{ index: stroke.index, earlyMs: -LEFTS.lateMs * share, softDb: LEFTS.softDb * share }];
  });
}

const CELLAR = { sticks: 'oak, heavy', drums: 'old kit in the cellar', pedal: 'old chain pedal', heel: 'down', phonePlace: 'shelf behind the kit' };

export const DANCE_YEAR: Story = {
  seed: 4_117_093,
  days: YEAR_DAYS,
  zone: 'Europe/Vienna',
  sessionMinutes: 15,
  freeWeekdays: [5, 6],
  plansAgain: true,
  followsPlan: true,
  phrases: [
    {
      ...{ name: 'Lantern song, out of the bridge', sticking: 'RLRLLRLR', cell: { first: 3, last: 4 } },
      ...{ goalBpm: 112, firstBpm: 72, referenceBpm: 88, from: 0, to: 151, ends: 'closed' },
      // Stands still for eight weeks in the middle, then goes on.
      learnt: (day) => Math.min(day, 40) * 0.3 + Math.max(0, day - 96) * 0.34,
      faults: lateLefts,
    },
    {
      ...{ name: "Miller's reel, the pick-up", sticking: 'RKKLRL', cell: { first: 1, last: 2 } },
      ...{ goalBpm: 120, firstBpm: 68, referenceBpm: 80, from: 158, to: 205, ends: 'paused' },
      learnt: () => 0,
    },
    {
      ...{ name: 'Winter fair, the way in', sticking: 'RKRLLRRK', cell: { first: 3, last: 4 } },
      ...{ goalBpm: 118, firstBpm: 70, referenceBpm: 84, from: 215, to: YEAR_DAYS },
      // Slowly at first, a jump after a lesson, and slowly on.
      learnt: (day) => day / 20 + (day < 85 ? 0 : 13),
      faults: lateLefts,
    },
  ],
  away: [
    { from: 54, to: 66, why: 'a daughter was born' },
    { from: 104, to: 113, why: 'moving house' },
    { from: 236, to: 254, why: 'the left wrist hurt; two weeks without sticks on advice, then slowly' },
    { from: 282, to: 293, why: 'vintage festivals, every night another village' },
    { from: 323, to: 331, why: 'nothing was written of it' },
  ],
  byHand: [
    { day: 286, minutes: 10, note: 'Behind the stage, on a cushion. Lefts only.' },
    { day: 290, minutes: 20, note: 'An hour early, on the kit of the other band.' },
  ],
  setups: [
    { day: 0, body: CELLAR },
    { day: 264, body: { ...CELLAR, drums: 'quiet kit with mesh heads' } },
  ],
  notes: {
    0: 'Out of the bridge the left hand limps. Every Saturday the same.',
    52: 'Any day now.',
    67: 'We are four. Ten quiet minutes while they sleep.',
    83: 'Weeks of the same. Am I just carrying it about?',
    102: 'Boxes everywhere. The kit goes on Thursday.',
    114: 'New cellar. Smells of apples.',
    145: 'Saturday in the tent: it came out of the bridge as if nothing were.',
    159: 'The reel. Two kicks before the tune, and they fall over each other.',
    190: 'Nothing moves. Nobody else minds.',
    204: 'We take the reel off the list. Put aside, not beaten.',
    215: 'Winter fair. The two lefts on the way in.',
    235: 'Left wrist hurts on the inside. Stopped.',
    255: 'First time after the wrist. Ten minutes, slow, as I was told.',
    264: 'Mesh heads since tonight. The baby sleeps over it.',
    294: 'Twelve villages. Home.',
    300: 'Lesson with Brigitta: lower stick, let the second one fall. At once.',
    332: 'Back at it.',
  },
  felt: { 67: 'tired', 83: 'hard', 145: 'easy', 190: 'hard', 255: 'asUsual', 300: 'easy' },
  hurt: [235],
};
