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
import { clickingIn } from './clickchoice.ts';

/** What is different today. */
export interface DayAsItIs {
  readonly onlyPad: boolean;
  /** What the feet do on a pad; undefined until it is answered. */
  readonly feet: FeetAnswer | undefined;
  /** Others want quiet: soft, on a pad. */
  readonly quiet: boolean;
  readonly length: 'planned' | 'fiveMinutes' | 'handsTired' | 'slowDay';
  /** Nothing listens: the player's word counts. */
  readonly unheard: boolean;
  /** One more session on a day that has had its own. */
  readonly oneMore: boolean;
  /** On a day without one, the next session. */
  readonly ahead: boolean;
}

/** Days since the phrase was played last, and days of practice since something hurt; unless said neither is anything to come back from. */
export interface BackAfter {
  readonly daysAway?: number;
  readonly sinceHurt?: number | undefined;
}

/** A day as it was planned. */
export const asPlanned: DayAsItIs = {
  onlyPad: false,
  quiet: false,
  feet: undefined,
  length: 'planned',
  unheard: false,
  oneMore: false,
  ahead: false,
};

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
  { exercises, nameOf, ...back }: { readonly exercises: readonly Exercise[]; readonly nameOf: NameStandIn } & BackAfter,
): FittedDay {
  const length = lengthOf(session, day, { exercises, ...back });
  if ((!day.onlyPad && !day.quiet) || !length.session) return { today: length, exercises };
  const instead = standIns(exercises, day, nameOf);
  const options = { exercises, instead };
  const place = refitToday(length.session, { kind: day.quiet ? 'quietHours' : 'onlyPad', ...(day.feet ? { feet: day.feet } : {}) }, options);
  const changes = [...length.changes, ...place.changes].filter(({ code }, _, all) => code !== 'plan-unchanged' || all.length === 1);
  return { today: { ...place, changes }, exercises: [...exercises, ...Object.values(instead)] };
}

function lengthOf(session: PlannedSession, day: DayAsItIs, { exercises, ...back }: { exercises: readonly Exercise[] } & BackAfter): Today {
  const start: Today = { session, feetHeard: true, asks: [], changes: [] };
  return circumstancesOf(day, back).reduce((so, circumstance) => {
    if (!so.session) return so;
    const fitted = refitToday(so.session, circumstance, { exercises });
    const changes = fitted.changes.filter(({ code }) => code !== 'plan-unchanged' && !so.changes.some((said) => said.code === code));
    return { ...fitted, changes: [...so.changes, ...changes] };
  }, start);
}

/** What is different, in the order in which it is fitted: days away first, then how long and how fast, then who judges. */
function circumstancesOf({ length, unheard, oneMore }: DayAsItIs, { daysAway = 0, sinceHurt }: BackAfter): readonly Circumstance[] {
  const asked: readonly Circumstance[] =
    length === 'planned' ? [] : length === 'fiveMinutes' ? [{ kind: 'minutes', minutes: FIVE }] : [{ kind: length }];
  return [
    { kind: 'backAfter', days: daysAway, ...(sinceHurt === undefined ? {} : { sinceHurt }) },
    ...(oneMore ? [{ kind: 'oneMore' } as const] : []),
    ...asked,
    ...(unheard ? [{ kind: 'noMicrophone' } as const] : []),
  ];
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
    // A block in another way of work, or of a day that is to stay slow, has the tempo it was given, and moves no other.
    fixedTempo: planned.part === 'reference' || planned.way !== undefined || planned.aim.code === 'plan-aim-easy',
    ...(planned.way === 'bursts' ? { rounds: 'short' as const } : {}),
    ...(planned.capBpm === undefined ? {} : { capBpm: planned.capBpm }),
    ...clickingIn(planned),
  }));
