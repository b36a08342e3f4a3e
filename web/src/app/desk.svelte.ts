/** The music desk: one place that holds the ring, the diary as it is read, the take and the session, for all screens. */
import { type DiaryRecord, type DiaryView, editOf, fold } from '@evenhand/core/diary';
import type { Problem } from '@evenhand/core/problem';
import { type AwayStatement, welcomeBack } from '@evenhand/core/progress';
import type { SessionBlock, SessionState } from '@evenhand/core/session';
import { DEMO_ADDRESS } from '../demo/asked.ts';
import type { Store, StoredTake } from '../store/store.ts';
import { type CutOff, closing, cutOffIn, openSessions, recovered } from './cutoff.ts';
import { createGiven, type Given } from './given.svelte.ts';
import { createKeeping, type Keeping } from './keeping.svelte.ts';
import { createListening, type Listening } from './listening.svelte.ts';
import { packAtRest } from './packing.ts';
import { contentOf, emptyPhrase, phraseOf, readingOf, tempoOf } from './phrase.ts';
import { createPlacing, type Placing } from './placing.svelte.ts';
import { createPlanning, type Planning } from './planning.svelte.ts';
import { practisedOf, resultsOf } from './results.ts';
import { type Cell, newRing, type Ring, type RingEvent, type Screen, turnRing } from './ring.ts';
import type { Room } from './room.ts';
import { speakAs } from './said.ts';
import { bodyAsTyped, pointOf } from './savedplan.ts';
import { sessionFree } from './sessionlock.ts';
import { DEFAULT_SETTINGS, firstDrums, type Settings, settingsOf } from './settings.ts';
import { createShelving, type Shelving } from './shelving.svelte.ts';
import { createSitting, type Sitting } from './sitting.svelte.ts';
import { screenIn, startRing } from './startring.ts';
import { createTaking, type Taking } from './taking.svelte.ts';

/** A session that is over, or none, leaves time for other things. */
const OVER: Pick<SessionState, 'phase'> = { phase: 'ended' };

export interface Desk {
  readonly ring: Ring;
  readonly diary: DiaryView | null;
  readonly today: string;
  readonly problems: readonly Problem[];
  readonly taking: Taking;
  readonly placing: Placing;
  readonly sitting: Sitting;
  readonly keeping: Keeping;
  readonly settings: Settings;
  readonly isDemo: boolean;
  /** Keeps a setting in the diary. */
  set<Name extends keyof Settings>(name: Name, value: Settings[Name]): Promise<boolean>;
  /** Loads everything again, as after another diary has taken the place of this one. */
  openAnew(): void;
  seeDemo(): void;
  /** Clears the demo and begins it again. */
  demoAnew(): Promise<void>;
  readonly planning: Planning;
  readonly listening: Listening;
  readonly given: Given;
  /** Makes the strokes of the exercise that came with the address the phrase to work on. */
  takeGiven(): void;
  /** The session that was cut off last, while none runs; null when there is none. */
  readonly cutOff: CutOff | null;
  /** Closes what was cut off as it is: what was played of it stays. */
  closeCutOff(): Promise<void>;
  /** One kind word after more days away than are usual. */
  readonly welcomeBack: AwayStatement | null;
  /** The session is made of what was taken from the shelf, not of the plan. */
  readonly fromShelf: boolean;
  turn(event: RingEvent): void;
  go(screen: Screen): void;
  readCautions(): Promise<void>;
  ownWord(): void;
  readonly shelving: Shelving;
  /** Goes to a session of what was taken from the shelf. */
  playShelf(): void;
  /** Starts today's session of the plan. */
  startPlanned(microphone: boolean): Promise<void>;
  /** Starts what was taken from the shelf. */
  startShelf(blocks: readonly SessionBlock[], microphone: boolean): Promise<void>;
  /** Closes the sticking point of the plan, puts it aside, or opens it again. */
  setPoint(is: 'open' | 'paused' | 'closed'): Promise<void>;
  saveNote(text: string): Promise<boolean>;
  /** The sound of a take, while it is on this device. */
  soundOf(takeId: string): Promise<StoredTake | null>;
  /** Opens the diary and takes up the last phrase. */
  open(): Promise<void>;
}

export function createDesk(room: Room): Desk {
  let ring = $state.raw<Ring>(newRing('welcome'));
  let diary = $state.raw<DiaryView | null>(null);
  let problems = $state.raw<readonly Problem[]>([]);
  let store: Store | null = null;
  let pointId: string | null = null;
  let settings = $state.raw<Settings>(DEFAULT_SETTINGS);
  /** When the latest entry was made; null for an empty diary. */
  let writtenAtMs = $state.raw<number | null>(null);
  /** Sessions without an end that nobody plays, here or in another tab. */
  let free = $state.raw<ReadonlySet<string>>(new Set());
  const asked = new Set<string>();
  const cutOff = $derived(diary && cutOffIn(diary, free));
  let fromShelf = $state(false);
  const given = createGiven();
  let byPlan = false;

  const turn = (event: RingEvent): void => {
    const before = ring.screen;
    ring = turnRing(ring, event);
    if (ring.screen !== before) location.hash = ring.screen;
  };
  const go = (screen: Screen) => {
    leaveTake();
    listening.stop();
    turn({ kind: 'went', screen });
  };

  const listening = createListening(room);
  const placing = createPlacing(room);
  const taking = createTaking(room, { ring: () => ring, turn });
  /** A microphone is never left open on a screen that does not show it: the take ends and is heard. */
  const leaveTake = () => void (ring.take.at === 'recording' && taking.stop());
  const sitting = createSitting(
    room,
    () => store,
    sessionOver,
    () => settings.tolerance,
  );
  const keeping = createKeeping(
    room,
    () => store,
    () => writtenAtMs,
  );

  const packing = packAtRest(
    () => !sitting.starting && (sitting.state ?? OVER).phase === OVER.phase && ring.take.at === 'idle' && keeping.stage.at !== 'working',
    () => room.ear().packTake(),
  );

  async function sessionOver(ended: SessionState): Promise<void> {
    await refresh();
    if (byPlan) await planning.sessionOver(ended);
  }

  const earlier = () => (diary ? resultsOf(diary) : []);

  async function refresh(): Promise<void> {
    const records = await store?.records();
    if (records?.value) read(records.value);
    if (records) problems = records.problems;
  }

  /** What is set holds before any screen is drawn with it. */
  function read(records: readonly DiaryRecord[]): void {
    const view = fold(records);
    settings = settingsOf(view.settings);
    speakAs(settings.noteNames);
    room.dayBegins(settings.cutOverHour);
    writtenAtMs = records.length === 0 ? null : Math.max(...records.map(({ made }) => made.wallMs));
    diary = view;
    for (const { session } of openSessions(view)) void watch(session.id);
  }

  /** Told once nobody plays a session any more: one that has no end then was cut off. */
  async function watch(sessionId: string): Promise<void> {
    if (asked.has(sessionId)) return;
    asked.add(sessionId);
    await sessionFree(sessionId);
    await recover(sessionId);
    free = new Set([...free, sessionId]);
  }

  /** What was kept aside of a session that was cut off comes into the diary. */
  async function recover(sessionId: string): Promise<void> {
    const kept = await store?.soFar();
    const drafts = diary && kept ? recovered(diary, sessionId, kept) : [];
    if (drafts.length === 0) return;
    await append(drafts);
    await refresh();
  }

  async function append(drafts: Parameters<Store['append']>[0]): Promise<boolean> {
    const written = await store?.append(drafts);
    problems = written?.problems ?? problems;
    return Boolean(written?.value);
  }

  const planning = createPlanning(room, { ring: () => ring, settings: () => settings, diary: () => diary, append, cutOff: () => cutOff, savePoint });

  async function open(): Promise<void> {
    const opened = await room.store();
    store = opened.value;
    problems = opened.problems;
    store?.onChange(() => {
      packing.wake();
      void refresh();
    });
    store?.onProblem((problem) => {
      problems = [problem];
    });
    await refresh();
    if (!diary) read([]);
    ring = startRing(diary!, settings, location.hash);
    if (given.look(location.hash) && ring.screen !== 'welcome') ring = { ...ring, screen: 'phrase' };
    addEventListener('hashchange', followHash);
    if (ring.screen !== screenIn(location.hash)) location.replace(`#${ring.screen}`);
    void room.ear().recoverTakes();
    packing.wake();
    await planning.catchUp();
  }

  function followHash(): void {
    const screen = given.look(location.hash) ? 'phrase' : screenIn(location.hash);
    if (screen && screen !== ring.screen) go(screen);
  }

  async function savePoint(cell: Cell): Promise<string | null> {
    const sticking = readingOf(ring.phrase).value;
    const tempoBpm = tempoOf(ring.phrase);
    if (!sticking || tempoBpm === null) return null;
    const { surfaces, perBeat } = contentOf(ring.phrase, sticking);
    const body = { name: sticking.text, sticking: sticking.text, surfaces, perBeat, tempoBpm, cell };
    const known = diary?.stickingPoints.find((point) => JSON.stringify(bodyAsTyped(point.body, body.name)) === JSON.stringify(body));
    pointId = known?.id ?? room.newId();
    if (!known) await append([{ id: pointId, kind: 'stickingPoint', ...room.writtenNow(), body }]);
    return pointId;
  }

  const { dropped } = planning;
  const shelving = createShelving(room, {
    ring: () => ring,
    turn,
    settings: () => settings,
    diary: () => diary,
    append,
    refresh,
    savePoint,
    dropped,
  });

  return {
    shelving,
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
    get welcomeBack() {
      return diary ? welcomeBack(practisedOf(diary), room.writtenNow().day, settings.daysAwayFine) : null;
    },
    get cutOff() {
      return sitting.state ? null : cutOff;
    },
    get fromShelf() {
      return fromShelf;
    },
    get settings() {
      return settings;
    },
    isDemo: room.forget !== null,
    keeping,
    taking,
    placing,
    sitting,
    planning,
    listening,
    given,
    takeGiven() {
      const { exercise } = given;
      if (exercise) turn({ kind: 'phraseEdited', change: phraseOf({ ...exercise, tempoBpm: tempoOf(ring.phrase) ?? Number(emptyPhrase.tempo) }) });
      given.putAway();
    },
    turn,
    go,
    open,
    playShelf() {
      fromShelf = true;
      go('session');
    },
    async setPoint(is) {
      const { standing } = planning;
      const point = diary && standing ? pointOf(diary, standing) : null;
      const now = room.writtenNow();
      if (point) await append([{ kind: 'edit', ...now, body: editOf(point, 'state', { is, day: now.day }) }]);
    },
    async startPlanned(microphone) {
      byPlan = true;
      const { standing, goesOn } = planning;
      await sitting.start(planning.blocks(), { microphone, stickingPointId: standing?.stickingPointId ?? null, earlier: earlier(), goesOn });
    },
    async startShelf(blocks, microphone) {
      byPlan = false;
      await sitting.start(blocks, { microphone, stickingPointId: pointId, earlier: earlier() });
      fromShelf = false;
    },
    async set(name, value) {
      const written = await append([{ kind: 'setting', ...room.writtenNow(), body: { name, value } }]);
      await refresh();
      // A phrase that is not begun yet begins on the drums that are at hand now.
      if (ring.phrase.sticking === '') turn({ kind: 'phraseEdited', change: { drums: firstDrums(settings) } });
      // Another hand or other drums make another shelf.
      if (ring.cell && ['hand', 'foot', 'openHanded', 'atHand', 'ownDrums'].includes(name)) turn({ kind: 'cellChosen', cell: ring.cell });
      return written;
    },
    openAnew: () => location.reload(),
    seeDemo: () => location.assign(DEMO_ADDRESS),
    async demoAnew() {
      problems = (await room.forget?.()) ?? [];
      if (problems.length === 0) location.reload();
    },
    async readCautions() {
      go(room.forget ? 'session' : 'phrase');
      if (diary?.settings.cautionsRead !== true)
        await append([{ kind: 'setting', ...room.writtenNow(), body: { name: 'cautionsRead', value: true } }]);
    },
    ownWord() {
      const strokeCount = readingOf(ring.phrase).value?.strokes.length ?? 0;
      if (strokeCount > 0) turn({ kind: 'ownWordGiven', strokeCount });
    },
    async closeCutOff() {
      if (!cutOff || sitting.state) return;
      await append(closing(cutOff, room));
      await refresh();
      await planning.sessionOver({ hurt: false });
    },
    soundOf: async (takeId) => (await store?.take(takeId))?.value ?? null,
    saveNote: (text) => append([{ kind: 'note', ...room.writtenNow(), body: { text, sessionId: null } }]),
  };
}
