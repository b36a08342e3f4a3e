/** Today's session as the day allows: where it is played, how long, with what hands; and the blocks that the session runs. */
import { type Exercise, expectedCycle } from '@evenhand/core/exercise';
import { type FeetAnswer, type PlannedBlock, type PlannedSession, refitToday, type Today } from '@evenhand/core/plan';
import type { SessionBlock } from '@evenhand/core/session';
import { type NameStandIn, standIns } from './standins.ts';

/** What is different today. */
export interface DayAsItIs {
  readonly onlyPad: boolean;
  /** What the feet do on a pad; undefined until it is answered. */
  readonly feet: FeetAnswer | undefined;
  readonly length: 'planned' | 'fiveMinutes' | 'handsTired';
}

/** A day as it was planned. */
export const asPlanned: DayAsItIs = { onlyPad: false, feet: undefined, length: 'planned' };

/** Today's session as it can be played, and the exercises it may name. */
export interface FittedDay {
  readonly today: Today;
  readonly exercises: readonly Exercise[];
}

/** The minutes of "five minutes". @source [JobBrief] */
const FIVE = 5;

/**
 * Fits a session to the day: first its length, then its place, each from the session as it was planned.
 * @param exercises those of the plan, best first.
 */
export function fitDay(
  session: PlannedSession,
  day: DayAsItIs,
  { exercises, nameOf }: { readonly exercises: readonly Exercise[]; readonly nameOf: NameStandIn },
): FittedDay {
  const length = lengthOf(session, day, exercises);
  if (!day.onlyPad || !length.session) return { today: length, exercises };
  const instead = standIns(exercises, day, nameOf);
  const options = { exercises, instead };
  const place = refitToday(length.session, { kind: 'onlyPad', ...(day.feet ? { feet: day.feet } : {}) }, options);
  const changes = [...length.changes, ...place.changes].filter(({ code }, _, all) => code !== 'plan-unchanged' || all.length === 1);
  return { today: { ...place, changes }, exercises: [...exercises, ...Object.values(instead)] };
}

function lengthOf(session: PlannedSession, { length }: DayAsItIs, exercises: readonly Exercise[]): Today {
  if (length === 'fiveMinutes') return refitToday(session, { kind: 'minutes', minutes: FIVE }, { exercises });
  if (length === 'handsTired') return refitToday(session, { kind: 'handsTired' }, { exercises });
  return { session, feetHeard: true, asks: [], changes: [] };
}

/** A planned block with its exercise. */
export interface TodayBlock {
  readonly planned: PlannedBlock;
  readonly exercise: Exercise;
}

/** Blocks in order; one whose exercise is not known is left out. */
export const todayBlocks = ({ blocks }: PlannedSession, exercises: readonly Exercise[]): readonly TodayBlock[] =>
  blocks.flatMap((planned) => {
    const exercise = exercises.find(({ id }) => id === planned.exerciseId);
    return exercise ? [{ planned, exercise }] : [];
  });

/** The blocks that a session runs. A warm-up is judged by nobody; feet that cannot be heard are judged by the player's word. */
export const runningBlocks = (blocks: readonly TodayBlock[], { feetHeard }: { readonly feetHeard: boolean }): readonly SessionBlock[] =>
  blocks.map(({ planned, exercise }) => ({
    exercise,
    cycle: expectedCycle(exercise),
    minutes: planned.minutes,
    tempoBpm: planned.tempoBpm,
    aim: planned.aim,
    reason: planned.reason,
    judgedBy: planned.part === 'warmUp' ? 'nobody' : !feetHeard && /[KH]/.test(exercise.sticking) ? 'word' : 'ear',
    fixedTempo: planned.part === 'reference',
  }));
