/** The plan as the screens see it: asked for, looked at, kept; today's session of it as the day allows. */
import type { DiaryView, RecordDraft } from '@evenhand/core/diary';
import type { Exercise, Family, PlayedAt } from '@evenhand/core/exercise';
import { PHRASE_AT_HAND, type PlanChange, withClosing } from '@evenhand/core/plan';
import type { Problem } from '@evenhand/core/problem';
import { daysAway, resultsOf } from '@evenhand/core/progress';
import type { SessionBlock, SessionState } from '@evenhand/core/session';
import { type CutOff, goingOn } from './cutoff.ts';
import { labels } from './labels.ts';
import { painted } from './painted.ts';
import { contentOf, type Phrase, phraseOf, readingOf, tempoOf } from './phrase.ts';
import { type PlannedPhrase, plannedPhrases } from './phrases.ts';
import { planKeeper } from './plankeeping.ts';
import { asWished, type Material, materialOf, type PlanAsked, type PlannedDay, type PlanPreview, planFor, usualPlan } from './planning.ts';
import { hurtOn, knownOf, practisedOf, practisedSinceHurt } from './results.ts';
import type { Cell, Ring, RingEvent } from './ring.ts';
import type { Room } from './room.ts';
import { say } from './said.ts';
import { type Agreed, daysOfPlan, NOTHING_AGREED, planOfPhrase, pointOf, type StandingPlan, standingPlan, stateOf } from './savedplan.ts';
import type { Settings } from './settings.ts';
import { START_SHARE, whatIsKnown } from './shelfknown.ts';
import { asPlanned, type DayAsItIs, type FittedDay, fitDay, runningBlocks, type TodayBlock, todayBlocks } from './today.ts';

export interface Planning {
  /** The plan that is at hand. */
  readonly standing: StandingPlan | null;
  /** Every phrase that has a plan, in the order in which they were named. */
  readonly phrases: readonly PlannedPhrase[];
  /** Whether a phrase as it is typed has a plan. */
  hasPlan(phrase: Phrase): boolean;
  /** Takes another phrase's plan up. */
  takeUp(standing: StandingPlan): Promise<void>;
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
  /** Looks at a plan, with what is asked changed. */
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
  /** Agrees on caps, ways of work or own blocks of the plan at hand; gives what is wrong with them. */
  agree(change: Partial<Agreed>): Promise<readonly Problem[]>;
  /** Chooses the families that count for closing the plan at hand, null for all. */
  setClosing(families: readonly Family[] | null): Promise<void>;
  /** Closes the phrase of the plan at hand, puts it aside, or works on it again. */
  setPoint(is: 'open' | 'paused' | 'closed'): Promise<void>;
}

/** Other drums than those of the plan's exercises. */
const needsMore = ({ onlyPad, quiet }: DayAsItIs): boolean => onlyPad || quiet;

interface Stand {
  ring(): Ring;
  turn(event: RingEvent): void;
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
  /** What was moved, by phrase. */
  let moved = $state.raw<ReadonlyMap<string | null, readonly PlanChange[]>>(new Map());
  let busy = false;
  let laid: { readonly key: string; readonly material: Material | null } | null = null;
  const keeper = planKeeper(room, { append: stand.append, materialOf: materialOfPlan });
  const standing = $derived.by(() => {
    const diary = stand.diary();
    return diary && standingPlan(diary);
  });
  const phrases = $derived.by(() => {
    const diary = stand.diary();
    return diary ? plannedPhrases(diary, room.writtenNow().day) : [];
  });
  /** Days since this phrase was played last, whatever else was. */
  const awayIn = (diary: DiaryView, plan: StandingPlan) => daysAway(practisedOf(daysOfPlan(diary, plan)), room.writtenNow().day) ?? 0;
  const planned = $derived.by((): PlannedDay | null => {
    const now = phrases.find((one) => one.standing.id === standing?.id)?.planned ?? null;
    return now && asWished(now, day);
  });
  const fitted = $derived.by(() => {
    const diary = stand.diary();
    if (!diary || !standing || planned?.at !== 'session') return null;
    return fitDay(planned.session, fittedDay, {
      exercises: drawnOn(standing),
      nameOf: (title, how) => labels.today.standIn(say(title), how),
      daysAway: awayIn(diary, standing),
      sinceHurt: practisedSinceHurt(diary, room.writtenNow().day),
    });
  });

  const toPlay = $derived.by(() => {
    const session = fitted?.today.session;
    const blocks = session ? todayBlocks(session, fitted.exercises) : [];
    const cut = stand.cutOff();
    const goes = cut?.ofPlan && planned?.at === 'session' && cut.day === planned.session.date;
    return goes ? goingOn(cut, blocks) : { cutOff: null, left: blocks };
  });

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
    const { sticking, surfaces, perBeat } = material.phrase;
    const replaces = planOfPhrase(diary, { sticking, surfaces, perBeat });
    const { value, problems } = planFor(material, asked, knownOf(resultsOf(diary)), replaces?.agreed);
    preview = { asked, plan: value, problems, exercises: material.exercises, replaces };
  }

  async function accept(): Promise<boolean> {
    const { cell } = stand.ring();
    if (!preview?.plan || !cell || busy) return false;
    busy = true;
    const stickingPointId = await stand.savePoint(cell);
    const { goalBpm, minutes } = preview.asked;
    const { replaces, exercises } = preview;
    const agreed = replaces?.agreed ?? NOTHING_AGREED;
    const own = agreed.own.map(({ exercise }) => exercise);
    const plan = { ...withClosing(preview.plan, replaces?.plan.closing ?? null), replaces: replaces?.id ?? null };
    const kept = await keeper.keep(plan, { stickingPointId, goalBpm, minutes, exercises: [...exercises, ...own], agreed });
    if (kept && phrases.length > 0 && stickingPointId) await atHand(stickingPointId);
    busy = false;
    if (kept) preview = null;
    day = fittedDay = asPlanned;
    return kept;
  }

  /** With several plans the diary says which is at hand. */
  const atHand = (stickingPointId: string): Promise<boolean> =>
    stand.append([{ kind: 'setting', ...room.writtenNow(), body: { name: PHRASE_AT_HAND, value: stickingPointId } }]);

  /** One revision at a time: what comes while another is written is left out. */
  async function alone<Given>(work: (diary: DiaryView) => Promise<Given>): Promise<Given | null> {
    const diary = stand.diary();
    if (!diary || busy) return null;
    busy = true;
    const given = await work(diary);
    busy = false;
    return given;
  }

  async function catchUp(): Promise<void> {
    const changes = await alone(keeper.catchUp);
    if (changes) moved = changes;
  }

  function tell(changes: readonly PlanChange[]): void {
    moved = new Map([[standing?.stickingPointId ?? null, changes]]);
  }

  async function sessionOver({ hurt }: Pick<SessionState, 'hurt'>): Promise<void> {
    moved = new Map();
    day = fittedDay = asPlanned;
    const diary = stand.diary();
    if (!diary || !standing || hurt || stateOf(diary, standing) !== 'open') return;
    const changes = (await keeper.again(diary, standing))?.changes ?? [];
    tell(changes.filter(({ code }) => code === 'plan-checks' || code === 'plan-too-hard'));
  }

  return {
    get standing() {
      return standing;
    },
    get phrases() {
      return phrases;
    },
    hasPlan(phrase) {
      const [diary, sticking] = [stand.diary(), readingOf(phrase).value];
      return diary !== null && sticking !== null && planOfPhrase(diary, contentOf(phrase, sticking)) !== null;
    },
    async takeUp(plan) {
      day = fittedDay = { ...asPlanned, unheard: day.unheard };
      const point = pointOf(stand.diary()!, plan)?.body;
      if (point) stand.turn({ kind: 'pointTakenUp', phrase: phraseOf(point), cell: point.cell });
      if (plan.stickingPointId) await atHand(plan.stickingPointId);
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
      return moved.get(standing?.stickingPointId ?? null) ?? [];
    },
    get goesOn() {
      return toPlay.cutOff;
    },
    get left() {
      return toPlay.left;
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
      return runningBlocks(toPlay.left, { feetHeard: fitted?.today.feetHeard ?? true });
    },
    async stopForToday() {
      const { atMs } = room.writtenNow();
      const minutes = planned?.at === 'session' ? planned.session.minutes : 0;
      const reason = { code: 'plan-hurts', params: {} };
      const body = { stickingPointId: standing?.stickingPointId ?? null, plannedMinutes: minutes, endedAtMs: atMs, ended: 'hurt', reason } as const;
      await stand.append([{ kind: 'session', ...room.writtenNow(), body }]);
    },
    catchUp,
    dropped: async (exerciseId) => void (await alone((diary) => keeper.dropped(diary, exerciseId))),
    sessionOver,
    agree: async (change) => (await alone(async (diary) => (standing ? keeper.agree(diary, standing, change) : []))) ?? [],
    setClosing: async (families) => tell((await alone(async (diary) => (standing ? keeper.setClosing(diary, standing, families) : []))) ?? []),
    setPoint: async (is) => tell((await alone(async (diary) => (standing ? keeper.setPoint(diary, standing, is) : []))) ?? []),
  };
}
