/** What becomes of a plan from a file when life happens: a day that is not as planned, a phrase that is closed or worked on again. */
import { isDay } from '@evenhand/core/diary';
import { contentId, type Exercise } from '@evenhand/core/exercise';
import {
  type Circumstance,
  closePlan,
  type FeetAnswer,
  type NameStandIn,
  type Plan,
  type PlanChange,
  refitToday,
  reopenPlan,
  standIns,
} from '@evenhand/core/plan';
import { type SaidProblem, say } from '@evenhand/core/words';
import type { PlanFile } from './plan-file.ts';
import { refuse, refuseOption } from './problems.ts';
import type { Call, OptionSpec } from './verb.ts';

export const lifeOptions: readonly OptionSpec[] = [
  { name: 'day', kind: 'text', placeholder: 'DATE', example: '2026-02-04', about: 'Only the session of that day of the plan.' },
  {
    name: 'is',
    kind: 'text',
    placeholder: 'WHAT',
    example: 'quiet',
    about:
      'What is different on --day: pad, feet-without-kit, tired, slow, quiet, no-microphone, one-more or hurts. With --minutes it is that much shorter.',
  },
  { name: 'feet', kind: 'text', placeholder: 'ANSWER', example: 'floor', about: 'What the feet play on without a kit: pedal, floor, hands or none.' },
  {
    name: 'closed',
    kind: 'text',
    placeholder: 'DATE',
    example: '2026-03-08',
    about: 'The phrase of the plan is closed on that day: checks come weeks later.',
  },
  { name: 'opened', kind: 'text', placeholder: 'DATE', example: '2026-05-04', about: 'The phrase is worked on again from that day.' },
];

/** What there is after it; a session alone where one day was asked for. */
export type Lived =
  | { readonly plan: Plan; readonly changes: readonly PlanChange[]; readonly exercises?: readonly Exercise[]; readonly problems?: never }
  | { readonly problems: readonly SaidProblem[]; readonly plan?: never; readonly changes?: never; readonly exercises?: never };

/** Whether a call asks for anything of this. */
export const asksForLife = ({ text }: Call): boolean => ['day', 'closed', 'opened'].some((name) => text[name] !== undefined);

/** @param file the plan as it was read. */
export function live(call: Call, file: PlanFile): Lived {
  const { day, closed, opened } = call.text;
  const wrong = Object.entries({ day, closed, opened }).filter(([, given]) => given !== undefined && !isDay(given));
  if (wrong.length > 0)
    return {
      problems: wrong.map(([name, given]) => refuseOption(`--${name}`, given!, { wanted: 'a day there is, as YYYY-MM-DD', example: '2026-02-04' })),
    };
  const exercises = file.exercises.flatMap((written) => exerciseOf(written) ?? []);
  if (day !== undefined) return onDay(call, file.plan, { day, exercises });
  const phrase = file.phrase && exercises.find(({ id }) => id === contentId(file.phrase!));
  if (!phrase || typeof file.goalBpm !== 'number') return { problems: [refuse('plan-without-phrase', {})] };
  const request = { phrase, goalBpm: file.goalBpm, exercises, weeks: 1, days: 1, minutes: file.plan.sessions[0]?.minutes ?? 12, start: '' };
  const today = (closed ?? opened)!;
  const happened = { today, missed: file.plan.away.filter((date) => date < today) };
  return closed === undefined ? reopenPlan(file.plan, request, happened) : closePlan(file.plan, request, happened);
}

const HOW = { pad: 'on the pad', movedToHands: 'feet moved to the hands', handsOnly: 'hands only' } as const;
const nameOf: NameStandIn = (title, how) => `${say(title)}, ${HOW[how]}`;

/** A day that is not as planned. */
function onDay(call: Call, plan: Plan, { day, exercises }: { readonly day: string; readonly exercises: readonly Exercise[] }): Lived {
  const written = plan.sessions.find(({ date }) => date === day);
  if (!written) return { problems: [refuse('plan-day-without-session', { day })] };
  const circumstance = circumstanceOf(call);
  if ('problem' in circumstance) return { problems: [circumstance.problem] };
  // It is another session now: titles and sentences of the file are made anew.
  const { date, minutes } = written;
  const blocks = written.blocks.map((block) => ({ ...block, title: undefined, said: undefined }));
  const feet = 'feet' in circumstance ? circumstance.feet : undefined;
  const elsewhere = ['onlyPad', 'quietHours', 'feetWithoutKit'].includes(circumstance.kind);
  const instead = elsewhere ? standIns(exercises, { onlyPad: circumstance.kind !== 'feetWithoutKit', feet }, nameOf) : {};
  const { session, changes, asks } = refitToday({ date, minutes, blocks }, circumstance, { exercises, instead });
  if (asks.length > 0) return { problems: [refuse('plan-feet-unsaid', {})] };
  return { plan: { ...plan, sessions: session ? [session] : [] }, changes, exercises: Object.values(instead) };
}

const FEET: Readonly<Record<string, FeetAnswer>> = { pedal: 'practicePedal', floor: 'footOnFloor', hands: 'movedToHands', none: 'handsOnly' };

function circumstanceOf({ text, number }: Call): Circumstance | { readonly problem: SaidProblem } {
  const { is, feet: answer } = text;
  if (answer !== undefined && !Object.hasOwn(FEET, answer))
    return { problem: refuseOption('--feet', answer, { wanted: 'pedal, floor, hands or none', example: 'floor' }) };
  const feet = answer === undefined ? {} : { feet: FEET[answer]! };
  if (is === undefined) {
    return number.minutes === undefined
      ? { problem: refuseOption('--is', '', { wanted: LIST, example: 'quiet' }) }
      : { kind: 'minutes', minutes: number.minutes };
  }
  const kinds: Readonly<Record<string, Circumstance>> = {
    pad: { kind: 'onlyPad', ...feet },
    'feet-without-kit': { kind: 'feetWithoutKit', ...feet },
    tired: { kind: 'handsTired' },
    slow: { kind: 'slowDay' },
    quiet: { kind: 'quietHours', ...feet },
    'no-microphone': { kind: 'noMicrophone' },
    'one-more': { kind: 'oneMore' },
    hurts: { kind: 'hurts' },
  };
  return kinds[is] ?? { problem: refuseOption('--is', is, { wanted: LIST, example: 'quiet' }) };
}

const LIST = 'one of pad, feet-without-kit, tired, slow, quiet, no-microphone, one-more, hurts';

/** An exercise as it stands in a plan's file, where titles and reasons are sentences; null where it is none. */
function exerciseOf(written: unknown): Exercise | null {
  const found = (written ?? {}) as Record<string, unknown>;
  const isOne =
    typeof found.id === 'string' && typeof found.sticking === 'string' && Array.isArray(found.surfaces) && typeof found.perBeat === 'number';
  const sentence = (value: unknown) => (typeof value === 'string' ? { code: value, params: {} } : value);
  return isOne ? ({ ...found, title: sentence(found.title), reason: sentence(found.reason) } as unknown as Exercise) : null;
}
