/** The front desk: ring, diary and settings, which is all the first screens need; the rest of the desk is fetched when it is first used. */
import { type DiaryView, fold } from '@evenhand/core/diary';
import type { Problem } from '@evenhand/core/problem';
import { DEMO_ADDRESS } from '../demo/asked.ts';
import type { ReadDiary, Store } from '../store/store.ts';
import { holdsExercise } from './address.ts';
import { printOn } from './paper.ts';
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
  /** At first the latest weeks with all that stands; then everything (`isAllRead`). Null until it was read. */
  readonly diary: DiaryView | null;
  readonly isAllRead: boolean;
  /** How far the diary is made ready to be read, 0 to 1, where that takes longer; else null. */
  readonly readying: number | null;
  /** How far it is, 0 to 1, while a diary that the browser lost is brought back from its second copy; else null. */
  readonly returning: number | null;
  /** Another diary is about to take the place of this one, or has: none is held until the page is loaded again. */
  readonly isReplacing: boolean;
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
  /** Told when the first screen stands: the rest of a long diary is read after that. */
  shown(): void;
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
  /** Resolves once everything of the diary was read. */
  allRead(): Promise<void>;
  /**
   * Lets go of all that was read of the diary and reads nothing while `work` puts another in its place, so that the two are never held at once.
   * @param work gives whether it did: then the page is to be loaded again; otherwise the diary is read anew.
   */
  replacing(work: () => Promise<boolean>): Promise<void>;
  /** Shows problems in place of those before. */
  tell(problems: readonly Problem[]): void;
  /** When the latest entry was made; null for an empty diary. */
  writtenAtMs(): number | null;
  /** Told before another screen is shown. */
  onLeave(listener: () => void): void;
  /** Told after the diary was read anew, all of it. */
  onRead(listener: (diary: DiaryView) => void): void;
}

/** What the front desk asks of the rest by itself. */
interface Fetched {
  /** Takes up an exercise that came with the address. */
  lookAt(hash: string): void;
}

/** The rest of the diary is read even when the first screen cannot be shown. Assumption: parts that are not there by then do not come. */
const NOT_SHOWN_MS = 5000;

/** What is written right behind an entry goes before the diary is read anew: so a session's last block and its end. Assumption: longer than an entry takes. */
const BEHIND_MS = 30;

/**
 * @param fetchRest fetches and makes the whole desk.
 * @param reachForRest told as soon as it is clear that the whole desk will be wanted, while the diary is still read.
 */
export function createFrontDesk<Rest extends Fetched>(
  room: FirstRoom,
  fetchRest: (behind: BehindDesk<Rest>) => Promise<Rest>,
  reachForRest: () => void = () => {},
): FrontDesk<Rest> {
  let ring = $state.raw<Ring>(newRing('welcome'));
  let diary = $state.raw<DiaryView | null>(null);
  let problems = $state.raw<readonly Problem[]>([]);
  let settings = $state.raw<Settings>(DEFAULT_SETTINGS);
  let writtenAtMs = $state.raw<number | null>(null);
  let whole = $state.raw<Rest | null>(null);
  let missing = $state(false);
  let coming: Promise<Rest | null> | null = null;
  let store: Store | null = null;
  let isAllRead = $state(false);
  let readying = $state<number | null>(null);
  let returning = $state<number | null>(null);
  let isReplacing = $state(false);
  let hasBegun = false;
  let part: 'latest' | 'whole' = 'latest';
  let reader = Promise.resolve();
  let allIsRead = (): void => {};
  const whenAllRead = new Promise<void>((resolve) => {
    allIsRead = resolve;
  });
  let shown = (): void => {};
  const firstShown = new Promise<void>((resolve) => {
    shown = resolve;
    setTimeout(resolve, NOT_SHOWN_MS);
  });
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

  /** One after the other: what was asked for last is what stands. */
  function refresh(): Promise<void> {
    reader = reader.then(async () => {
      if (isReplacing) return;
      const diaryRead = await store?.read(part, (share) => {
        readying = share;
      });
      readying = null;
      if (diaryRead?.value) read(diaryRead.value);
      // A good reading takes nothing back: what was told of the writing before it still stands.
      if (diaryRead && diaryRead.problems.length > 0) problems = diaryRead.problems;
    });
    return reader;
  }

  let soon: ReturnType<typeof setTimeout> | undefined;
  function refreshSoon(): void {
    clearTimeout(soon);
    soon = setTimeout(() => void refresh(), BEHIND_MS);
  }

  /** Today is shown first. */
  async function readAll(): Promise<void> {
    part = 'whole';
    if (!isAllRead) await firstShown.then(refresh);
    isAllRead = true;
    allIsRead();
  }

  /** What is set holds before any screen is drawn with it. */
  function read({ view, writtenAtMs: latest, whole: all }: ReadDiary): void {
    settings = settingsOf(view.settings);
    speakAs(settings.noteNames);
    lookAs(settings);
    printOn(settings.paper);
    room.dayBegins(settings.cutOverHour);
    writtenAtMs = latest;
    // Nothing is drawn on the screen that stood before there was a diary.
    if (!hasBegun) begin(view);
    hasBegun = true;
    diary = view;
    isAllRead = all;
    if (all) for (const tell of reading) tell(view);
  }

  function begin(view: DiaryView): void {
    const { hash } = location;
    ring = startRing(view, settings, hash);
    // An exercise that came with the address is seen beside the phrase, after the cautions.
    if (holdsExercise(hash) && ring.screen !== 'welcome') ring = { ...ring, screen: 'phrase' };
  }

  async function replacing(work: () => Promise<boolean>): Promise<void> {
    isReplacing = true;
    // What is read just now would be held again.
    await reader;
    diary = null;
    store?.letGo();
    if (await work()) return;
    isReplacing = false;
    await refresh();
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
    const opened = await room.store((share) => {
      returning = share;
    });
    returning = null;
    store = opened.value;
    problems = opened.problems;
    if (await store?.isBegun()) reachForRest();
    store?.onChange(refreshSoon);
    store?.onProblem((problem) => {
      problems = [problem];
    });
    await refresh();
    if (!diary) read({ view: fold([]), writtenAtMs: null, whole: true });
    const { hash } = location;
    if (holdsExercise(hash)) void lookAt(hash);
    addEventListener('hashchange', followHash);
    if (ring.screen !== screenIn(location.hash)) location.replace(`#${ring.screen}`);
    // Whoever has been here before has a plan to be moved on, or a take that was cut off.
    if (isBegun(diary!) || (await store?.holdsTakes())) await fetchWhole();
    await readAll();
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
    get isAllRead() {
      return isAllRead;
    },
    get readying() {
      return readying;
    },
    get returning() {
      return returning;
    },
    get isReplacing() {
      return isReplacing;
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
    shown: () => shown(),
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
    allRead: () => whenAllRead,
    replacing,
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
