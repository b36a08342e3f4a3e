/** Today's session as the day allows: where it is played, how long, with what hands; and the blocks that the session runs. */
import { type Exercise, expectedCycle } from '@evenhand/core/exercise';
import {
  type Circumstance,
  type FeetAnswer,
  type NameStandIn,
  type PlannedBlock,
  type PlannedSession,
  refitToday,
  standIns,
  type Today,
} from '@evenhand/core/plan';
import type { SessionBlock } from '@evenhand/core/session';

/** What is different today. */
export interface DayAsItIs {
  readonly onlyPad: boolean;
  /** What the feet do on a pad; undefined until it is answered. */
  readonly feet: FeetAnswer | undefined;
  /** Others want quiet: soft, on a pad. */
  readonly quiet: boolean;
  readonly length: 'planned' | 'fiveMinutes' | 'handsTired' | 'slowDay';
}

/** A day as it was planned. */
export const asPlanned: DayAsItIs = { onlyPad: false, quiet: false, feet: undefined, length: 'planned' };

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
  { exercises, nameOf, daysAway = 0 }: { readonly exercises: readonly Exercise[]; readonly nameOf: NameStandIn; readonly daysAway?: number },
): FittedDay {
  const length = lengthOf(session, day, { exercises, daysAway });
  if ((!day.onlyPad && !day.quiet) || !length.session) return { today: length, exercises };
  const instead = standIns(exercises, day, nameOf);
  const options = { exercises, instead };
  const place = refitToday(length.session, { kind: day.quiet ? 'quietHours' : 'onlyPad', ...(day.feet ? { feet: day.feet } : {}) }, options);
  const changes = [...length.changes, ...place.changes].filter(({ code }, _, all) => code !== 'plan-unchanged' || all.length === 1);
  return { today: { ...place, changes }, exercises: [...exercises, ...Object.values(instead)] };
}

function lengthOf(
  session: PlannedSession,
  { length }: DayAsItIs,
  { exercises, daysAway }: { exercises: readonly Exercise[]; daysAway: number },
): Today {
  const back = refitToday(session, { kind: 'backAfter', days: daysAway }, { exercises });
  const planned: Today = { ...back, changes: back.changes.filter(({ code }) => code !== 'plan-unchanged') };
  const asked = asCircumstance(length);
  if (!asked || !planned.session) return planned;
  const fitted = refitToday(planned.session, asked, { exercises });
  return { ...fitted, changes: [...planned.changes, ...fitted.changes] };
}

function asCircumstance(length: DayAsItIs['length']): Circumstance | null {
  switch (length) {
    case 'planned':
      return null;
    case 'fiveMinutes':
      return { kind: 'minutes', minutes: FIVE };
    case 'handsTired':
    case 'slowDay':
      return { kind: length };
  }
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
    // A block in another way of work has the tempo it was given, and moves no other.
    fixedTempo: planned.part === 'reference' || planned.way !== undefined,
    ...(planned.way === 'bursts' ? { rounds: 'short' as const } : {}),
    ...(planned.capBpm === undefined ? {} : { capBpm: planned.capBpm }),
  }));
