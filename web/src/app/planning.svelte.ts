/** The plan as the screens see it: asked for, looked at, kept; today's session of it as the day allows. */
import type { DiaryView, RecordDraft } from '@evenhand/core/diary';
import type { Exercise, PlayedAt } from '@evenhand/core/exercise';
import type { Plan, PlanChange, Refitted } from '@evenhand/core/plan';
import type { Problem } from '@evenhand/core/problem';
import { daysAway } from '@evenhand/core/progress';
import type { SessionBlock, SessionState } from '@evenhand/core/session';
import { type CutOff, daysOver, goingOn } from './cutoff.ts';
import { labels } from './labels.ts';
import { painted } from './painted.ts';
import { type Phrase, phraseOf, tempoOf } from './phrase.ts';
import {
  caughtUp,
  comesUp,
  type Material,
  materialOf,
  type PlanAsked,
  type PlannedDay,
  planFor,
  plannedAgain,
  plannedDay,
  usualPlan,
  waitsForPlan,
} from './planning.ts';
import { hurtOn, knownOf, practisedDays, practisedOf, resultsOf } from './results.ts';
import type { Cell, Ring } from './ring.ts';
import type { Room } from './room.ts';
import { say } from './said.ts';
import { isAtRest, planBody, pointOf, type StandingPlan, standingPlan } from './savedplan.ts';
import type { Settings } from './settings.ts';
import { START_SHARE, whatIsKnown } from './shelfknown.ts';
import { asPlanned, type DayAsItIs, type FittedDay, fitDay, runningBlocks, type TodayBlock, todayBlocks } from './today.ts';

/** A plan that was asked for and is not kept yet. */
export interface PlanPreview {
  readonly asked: PlanAsked;
  readonly plan: Plan | null;
  readonly problems: readonly Problem[];
  readonly exercises: readonly Exercise[];
}

export interface Planning {
  /** The plan that is kept. */
  readonly standing: StandingPlan | null;
  readonly preview: PlanPreview | null;
  /** What the plan has for today; null without a plan. */
  readonly planned: PlannedDay | null;
  readonly day: DayAsItIs;
  /** Today's session as the day allows; null when there is none. */
  readonly fitted: FittedDay | null;
  /** What was moved because days went by, said once. */
  readonly moved: readonly PlanChange[];
  /** Something hurt today. */
  readonly hurt: boolean;
  /** Looks at a plan, with what is asked changed. Nothing while there is no phrase or cell. */
  ask(change: Partial<PlanAsked>): void;
  /** Keeps the plan that is looked at. */
  accept(): Promise<boolean>;
  /** The day is not as planned: said at once, refitted as soon as that is seen. */
  fit(change: Partial<DayAsItIs>): Promise<void>;
  /** Today's session is not refitted yet to what was said of the day. */
  readonly fitting: boolean;
  /** Today's session that was cut off and can go on with what is planned; null when there is none. */
  readonly goesOn: CutOff | null;
  /** Today's session as it is now: its blocks, or those that are left of one that was cut off. */
  readonly left: readonly TodayBlock[];
  /** The blocks of today's session, to run now. */
  blocks(): readonly SessionBlock[];
  /** Stops for today, and notes it. */
  stopForToday(): Promise<void>;
  /** Moves what was missed on, and plans again when a session that is over was not planned with yet. */
  catchUp(): Promise<void>;
  /** An exercise was dropped: where sessions to come have it, they are planned again without it. */
  dropped(exerciseId: string): Promise<void>;
  /** What is left is planned again with what came out. */
  sessionOver(ended: Pick<SessionState, 'hurt'>): Promise<void>;
}

/** Other drums than those of the plan's exercises. */
const needsMore = ({ onlyPad, quiet }: DayAsItIs): boolean => onlyPad || quiet;

interface Stand {
  ring(): Ring;
  settings(): Settings;
  diary(): DiaryView | null;
  append(drafts: readonly RecordDraft[]): Promise<boolean>;
  /** The session that was cut off last. */
  cutOff(): CutOff | null;
  /** Keeps the phrase with its cell, and gives its id. */
  savePoint(cell: Cell): Promise<string | null>;
}

/** @param stand where ring and diary are read and the diary is written. */
export function createPlanning(room: Room, stand: Stand): Planning {
  let preview = $state.raw<PlanPreview | null>(null);
  let day = $state.raw<DayAsItIs>(asPlanned);
  /** The day that today's session is refitted to. */
  let fittedDay = $state.raw<DayAsItIs>(asPlanned);
  let moved = $state.raw<readonly PlanChange[]>([]);
  let busy = false;
  let laid: { readonly key: string; readonly material: Material | null } | null = null;
  const standing = $derived.by(() => {
    const diary = stand.diary();
    return diary && standingPlan(diary);
  });
  const lived = (diary: DiaryView) => ({ done: practisedDays(diary), today: room.writtenNow().day });
  const awayNow = () => {
    const diary = stand.diary();
    return (diary && daysAway(practisedOf(diary), room.writtenNow().day)) ?? 0;
  };
  const planned = $derived.by(() => {
    const diary = stand.diary();
    const today = room.writtenNow().day;
    // Nothing is proposed for what was closed or put aside; the plan stays as it is.
    if (diary && standing && isAtRest(diary, standing)) return { at: 'rest' as const, next: null };
    return diary && standing && plannedDay(standing.plan, { done: daysOver(diary, today), today });
  });
  const fitted = $derived.by(() => {
    if (!standing || planned?.at !== 'session') return null;
    return fitDay(planned.session, fittedDay, {
      exercises: drawnOn(standing),
      nameOf: (title, how) => labels.today.standIn(say(title), how),
      daysAway: awayNow(),
    });
  });

  const toPlay = $derived.by(() => {
    const session = fitted?.today.session;
    const blocks = session ? todayBlocks(session, fitted.exercises) : [];
    const cut = stand.cutOff();
    const goes = cut?.ofPlan && planned?.at === 'session' && cut.day === planned.session.date;
    return goes ? goingOn(cut, blocks) : { cutOff: null, left: blocks };
  });
  const left = $derived(toPlay.left);

  /** All that the plan can draw on, those of its sessions first. Only a day that is not as planned needs more. */
  function drawnOn(plan: StandingPlan): readonly Exercise[] {
    return needsMore(fittedDay) ? [...plan.exercises, ...(materialOfPlan(plan)?.exercises ?? [])] : plan.exercises;
  }

  async function fit(change: Partial<DayAsItIs>): Promise<void> {
    day = { ...day, ...change };
    const said = day;
    if (needsMore(said)) await painted();
    if (day === said) fittedDay = said;
  }

  /** Laying out takes a tenth of a second, and a plan is looked at again with every figure that is typed: the last one is remembered. */
  function laidOut(phrase: Phrase, cell: Cell): Material | null {
    const settings = stand.settings();
    const choices = stand.diary()?.choices ?? [];
    const at = reachFor(phrase);
    const key = JSON.stringify([phrase, cell, settings, choices.map(({ id }) => id), at]);
    if (laid?.key !== key) laid = { key, material: materialOf(phrase, cell, { settings, diary: { choices }, ...(at ? { at } : {}) }) };
    return laid.material;
  }

  /** What this player reaches so far, for the tempo at which work on a phrase starts. */
  function reachFor(phrase: Phrase): PlayedAt | null {
    const [diary, tempoBpm] = [stand.diary(), tempoOf(phrase)];
    if (!diary || tempoBpm === null) return null;
    const asked = { tempoBpm: tempoBpm * START_SHARE, today: room.writtenNow().day, hand: stand.settings().hand };
    return whatIsKnown(resultsOf(diary), asked).at ?? null;
  }

  /** The material of the plan's phrase as it was kept. */
  function materialOfPlan(plan: StandingPlan): Material | null {
    const diary = stand.diary();
    const point = diary && pointOf(diary, plan)?.body;
    return point?.cell ? laidOut(phraseOf(point), point.cell) : null;
  }

  function ask(change: Partial<PlanAsked>): void {
    const { phrase, cell } = stand.ring();
    const diary = stand.diary();
    const goalBpm = tempoOf(phrase);
    const material = cell && laidOut(phrase, cell);
    if (!diary || !material || goalBpm === null) {
      preview = null;
      return;
    }
    const asked = { ...(preview?.asked ?? usualPlan(room.writtenNow().day, goalBpm)), ...change };
    const { value, problems } = planFor(material, asked, knownOf(resultsOf(diary)));
    preview = { asked, plan: value, problems, exercises: material.exercises };
  }

  async function accept(): Promise<boolean> {
    const { cell } = stand.ring();
    if (!preview?.plan || !cell || busy) return false;
    busy = true;
    const stickingPointId = await stand.savePoint(cell);
    const { goalBpm, minutes } = preview.asked;
    const plan = { ...preview.plan, replaces: standing?.id ?? null };
    const kept = await keep(plan, { stickingPointId, goalBpm, minutes, exercises: preview.exercises });
    busy = false;
    if (kept) preview = null;
    day = fittedDay = asPlanned;
    return kept;
  }

  const keep = (plan: Plan, made: Parameters<typeof planBody>[1]): Promise<boolean> =>
    stand.append([{ kind: 'plan', ...room.writtenNow(), body: planBody(plan, made) }]);

  async function catchUp(): Promise<void> {
    const diary = stand.diary();
    if (!diary || !standing || busy || isAtRest(diary, standing)) return;
    busy = true;
    // What was missed moves on with it, in one revision.
    const again = diary.plan && waitsForPlan(diary, diary.plan) ? await planAgainFrom(diary, standing) : null;
    const refitted = again ? null : caughtUp(standing, lived(diary));
    if (again) moved = again.changes.filter(({ code }) => code !== 'plan-made-again');
    if (refitted && (await keep(refitted.plan, standing))) moved = refitted.changes;
    busy = false;
  }

  async function sessionOver({ hurt }: Pick<SessionState, 'hurt'>): Promise<void> {
    moved = [];
    day = fittedDay = asPlanned;
    const diary = stand.diary();
    if (diary && standing && !hurt) await planAgainFrom(diary, standing);
  }

  async function dropped(exerciseId: string): Promise<void> {
    const diary = stand.diary();
    if (!diary || !standing || busy || !comesUp(standing.plan, exerciseId, room.writtenNow().day)) return;
    busy = true;
    await planAgainFrom(diary, standing);
    busy = false;
  }

  /** Plans what is left with what came out, and keeps it. Null when nothing changes or could be kept. */
  async function planAgainFrom(diary: DiaryView, plan: StandingPlan): Promise<Refitted | null> {
    const material = materialOfPlan(plan);
    const again = material && plannedAgain(plan, material, { ...lived(diary), known: knownOf(resultsOf(diary)) });
    if (!again) return null;
    return (await keep(again.plan, { ...plan, exercises: [...plan.exercises, ...material.exercises] })) ? again : null;
  }

  return {
    get standing() {
      return standing;
    },
    get preview() {
      return preview;
    },
    get planned() {
      return planned;
    },
    get day() {
      return day;
    },
    get fitted() {
      return fitted;
    },
    get moved() {
      return moved;
    },
    get goesOn() {
      return toPlay.cutOff;
    },
    get left() {
      return left;
    },
    get hurt() {
      const diary = stand.diary();
      return diary !== null && hurtOn(diary, room.writtenNow().day);
    },
    ask,
    accept,
    get fitting() {
      return day !== fittedDay;
    },
    fit,
    blocks() {
      return runningBlocks(left, { feetHeard: fitted?.today.feetHeard ?? true });
    },
    async stopForToday() {
      const { atMs } = room.writtenNow();
      const minutes = planned?.at === 'session' ? planned.session.minutes : 0;
      const reason = { code: 'plan-hurts', params: {} };
      const body = { stickingPointId: standing?.stickingPointId ?? null, plannedMinutes: minutes, endedAtMs: atMs, ended: 'hurt', reason } as const;
      await stand.append([{ kind: 'session', ...room.writtenNow(), body }]);
    },
    catchUp,
    dropped,
    sessionOver,
  };
}
