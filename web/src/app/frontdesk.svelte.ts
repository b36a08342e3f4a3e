/** The front desk: ring, diary and settings, which is all the first screens need; the rest of the desk is fetched when it is first used. */
import { type DiaryRecord, type DiaryView, fold } from '@evenhand/core/diary';
import type { Problem } from '@evenhand/core/problem';
import { DEMO_ADDRESS } from '../demo/asked.ts';
import type { Store } from '../store/store.ts';
import { holdsExercise } from './address.ts';
import { readingOf } from './phrase.ts';
import { newRing, type Ring, type RingEvent, type Screen, turnRing } from './ring.ts';
import type { FirstRoom } from './room.ts';
import { speakAs } from './said.ts';
import { DEFAULT_SETTINGS, type Settings, settingsOf } from './settings.ts';
import { lookAs } from './sheetlook.svelte.ts';
import { screenIn, startRing } from './startring.ts';
import type { Whose } from './whose.svelte.ts';

/** What the first screens work with. `Rest` is the whole desk, this one included. */
export interface FrontDesk<Rest> {
  readonly ring: Ring;
  readonly diary: DiaryView | null;
  readonly today: string;
  readonly problems: readonly Problem[];
  readonly settings: Settings;
  readonly isDemo: boolean;
  /** Whose diary is open; null in the demo. */
  readonly whose: Whose | null;
  /** Null until it was fetched. */
  readonly whole: Rest | null;
  /** The whole desk could not be fetched when it was last asked for. */
  readonly missing: boolean;
  /** Fetches the whole desk once; null when that fails, and asked again it tries again. */
  fetchWhole(): Promise<Rest | null>;
  seeDemo(): void;
  turn(event: RingEvent): void;
  go(screen: Screen): void;
  readCautions(): Promise<void>;
  ownWord(): void;
  /** Opens the diary and takes up the last phrase. */
  open(): Promise<void>;
}

/** What the front desk hands to the rest of the desk. */
export interface BehindDesk<Rest> {
  readonly front: FrontDesk<Rest>;
  readonly room: FirstRoom;
  store(): Store | null;
  append(drafts: Parameters<Store['append']>[0]): Promise<boolean>;
  /** Reads the diary anew. */
  refresh(): Promise<void>;
  /** Shows problems in place of those before. */
  tell(problems: readonly Problem[]): void;
  /** When the latest entry was made; null for an empty diary. */
  writtenAtMs(): number | null;
  /** Told before another screen is shown. */
  onLeave(listener: () => void): void;
  /** Told after the diary was read anew. */
  onRead(listener: (diary: DiaryView) => void): void;
}

/** What the front desk asks of the rest by itself. */
interface Fetched {
  /** Takes up an exercise that came with the address. */
  lookAt(hash: string): void;
}

/** @param fetchRest fetches and makes the whole desk. */
export function createFrontDesk<Rest extends Fetched>(room: FirstRoom, fetchRest: (behind: BehindDesk<Rest>) => Promise<Rest>): FrontDesk<Rest> {
  let ring = $state.raw<Ring>(newRing('welcome'));
  let diary = $state.raw<DiaryView | null>(null);
  let problems = $state.raw<readonly Problem[]>([]);
  let settings = $state.raw<Settings>(DEFAULT_SETTINGS);
  let writtenAtMs = $state.raw<number | null>(null);
  let whole = $state.raw<Rest | null>(null);
  let missing = $state(false);
  let coming: Promise<Rest | null> | null = null;
  let store: Store | null = null;
  const leaving = new Set<() => void>();
  const reading = new Set<(diary: DiaryView) => void>();

  const turn = (event: RingEvent): void => {
    const before = ring.screen;
    ring = turnRing(ring, event);
    if (ring.screen !== before) location.hash = ring.screen;
  };

  const go = (screen: Screen): void => {
    for (const leave of leaving) leave();
    turn({ kind: 'went', screen });
  };

  async function refresh(): Promise<void> {
    const records = await store?.records();
    if (records?.value) read(records.value);
    // A good reading takes nothing back: what was told of the writing before it still stands.
    if (records && records.problems.length > 0) problems = records.problems;
  }

  /** What is set holds before any screen is drawn with it. */
  function read(records: readonly DiaryRecord[]): void {
    const view = fold(records);
    settings = settingsOf(view.settings);
    speakAs(settings.noteNames);
    lookAs(settings);
    room.dayBegins(settings.cutOverHour);
    writtenAtMs = records.reduce<number | null>((latest, { made }) => Math.max(latest ?? 0, made.wallMs), null);
    diary = view;
    for (const tell of reading) tell(view);
  }

  async function append(drafts: Parameters<Store['append']>[0]): Promise<boolean> {
    const written = await store?.append(drafts);
    problems = written?.problems ?? problems;
    return Boolean(written?.value);
  }

  function fetchWhole(): Promise<Rest | null> {
    coming ??= fetchRest(behind).then(
      (rest) => {
        missing = false;
        whole = rest;
        return rest;
      },
      () => {
        missing = true;
        coming = null;
        return null;
      },
    );
    return coming;
  }

  async function open(): Promise<void> {
    const opened = await room.store();
    store = opened.value;
    problems = opened.problems;
    store?.onChange(() => void refresh());
    store?.onProblem((problem) => {
      problems = [problem];
    });
    await refresh();
    if (!diary) read([]);
    const { hash } = location;
    ring = startRing(diary!, settings, hash);
    // An exercise that came with the address is seen beside the phrase, after the cautions.
    if (holdsExercise(hash) && ring.screen !== 'welcome') ring = { ...ring, screen: 'phrase' };
    if (holdsExercise(hash)) void lookAt(hash);
    addEventListener('hashchange', followHash);
    if (ring.screen !== screenIn(location.hash)) location.replace(`#${ring.screen}`);
    // Whoever has been here before has a plan to be moved on, or a take that was cut off.
    if (isBegun(diary!) || (await store?.holdsTakes())) await fetchWhole();
  }

  function followHash(): void {
    const { hash } = location;
    const screen = holdsExercise(hash) ? 'phrase' : screenIn(hash);
    if (holdsExercise(hash)) void lookAt(hash);
    if (screen && screen !== ring.screen) go(screen);
  }

  const lookAt = async (hash: string): Promise<void> => (await fetchWhole())?.lookAt(hash);

  const front: FrontDesk<Rest> = {
    get ring() {
      return ring;
    },
    get diary() {
      return diary;
    },
    get today() {
      return room.writtenNow().day;
    },
    get problems() {
      return problems;
    },
    get settings() {
      return settings;
    },
    isDemo: room.forget !== null,
    whose: room.whose,
    get whole() {
      return whole;
    },
    get missing() {
      return missing;
    },
    fetchWhole,
    seeDemo: () => location.assign(DEMO_ADDRESS),
    turn,
    go,
    open,
    async readCautions() {
      go(room.forget ? 'session' : 'phrase');
      if (diary?.settings.cautionsRead !== true)
        await append([{ kind: 'setting', ...room.writtenNow(), body: { name: 'cautionsRead', value: true } }]);
    },
    ownWord() {
      const strokeCount = readingOf(ring.phrase).value?.strokes.length ?? 0;
      if (strokeCount > 0) turn({ kind: 'ownWordGiven', strokeCount });
    },
  };

  const behind: BehindDesk<Rest> = {
    front,
    room,
    store: () => store,
    append,
    refresh,
    tell: (next) => {
      problems = next;
    },
    writtenAtMs: () => writtenAtMs,
    onLeave: (listener) => void leaving.add(listener),
    onRead: (listener) => void reading.add(listener),
  };
  return front;
}

/** Whether anything was practised, planned or named yet. */
const isBegun = ({ days, plan, stickingPoints }: DiaryView): boolean => days.length > 0 || plan !== null || stickingPoints.length > 0;
