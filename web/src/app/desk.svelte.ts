/** The music desk: the front desk with everything that is played, planned and kept at it, for all screens. */
import type { DiaryRecord, DiaryView, RecordDraft, SetupBody } from '@evenhand/core/diary';
import type { Family } from '@evenhand/core/exercise';
import { type AwayStatement, resultsOf, welcomeBack } from '@evenhand/core/progress';
import type { SessionBlock, SessionState } from '@evenhand/core/session';
import { atRest } from './atrest.ts';
import { type CutOff, closing } from './cutoff.ts';
import { cutOffSessions } from './cutoffs.svelte.ts';
import type { BehindDesk, FrontDesk } from './frontdesk.svelte.ts';
import { createGiven, type Given } from './given.svelte.ts';
import { createKeeping, type Keeping } from './keeping.svelte.ts';
import { createListening, type Listening } from './listening.svelte.ts';
import { machinesOn, type Sounding } from './machines.ts';
import { packAtRest } from './packing.ts';
import { emptyPhrase, type Phrase, phraseOf, tempoOf } from './phrase.ts';
import { createPlacing, type Placing } from './placing.svelte.ts';
import { createPlanning, type Planning } from './planning.svelte.ts';
import { pointKeeper } from './pointkept.ts';
import { judgedAnew } from './probing.ts';
import { stopWorkingOut, workOutAtRest } from './progress.ts';
import { practisedOf, workResults } from './results.ts';
import type { Room } from './room.ts';
import { learnAllSentences } from './saidall.ts';
import { createSearching, type Searching } from './searching.svelte.ts';
import { firstDrums, type Settings } from './settings.ts';
import { createShelving, type Shelving } from './shelving.svelte.ts';
import { createSitting, type Sitting, startedAt } from './sitting.svelte.ts';
import { type TakeSounds, takeSounds } from './takesounds.ts';
import { createTaking, type Taking } from './taking.svelte.ts';

/** A session that is over, or none, leaves time for other things. */
const OVER: Pick<SessionState, 'phase'> = { phase: 'ended' };

/** What the first screens have of the desk. */
export type FirstDesk = FrontDesk<Desk>;

export interface Desk extends FrontDesk<Desk>, Omit<TakeSounds, 'freeOverdue'> {
  /** For panels that are fetched when they are opened and bring machinery of their own. */
  readonly machines: Pick<Room, 'openEngine' | 'storeName'>;
  readonly taking: Taking;
  readonly placing: Placing;
  readonly sitting: Sitting;
  readonly searching: Searching;
  readonly keeping: Keeping;
  readonly planning: Planning;
  readonly listening: Listening;
  readonly shelving: Shelving;
  readonly given: Given;
  /** Takes up an exercise that came with the address. */
  lookAt(hash: string): void;
  /** Makes the strokes of the exercise that came with the address the phrase to work on. */
  takeGiven(): void;
  /** Says how the phrase is meant; what was heard of it is judged anew. */
  mean(change: Partial<Pick<Phrase, 'shapes' | 'fill'>>): void;
  /** Keeps with what is played, from today on. */
  keepSetup(setup: SetupBody): Promise<boolean>;
  /** Keeps a setting in the diary. */
  set<Name extends keyof Settings>(name: Name, value: Settings[Name]): Promise<boolean>;
  /** Loads everything again, as after another diary has taken the place of this one. */
  openAnew(): void;
  /** Clears the demo and begins it again. */
  demoAnew(): Promise<void>;
  /** The session that was cut off last, while none runs; null when there is none. */
  readonly cutOff: CutOff | null;
  /** Closes what was cut off as it is: what was played of it stays. */
  closeCutOff(): Promise<void>;
  /** One kind word after more days away than are usual. */
  readonly welcomeBack: AwayStatement | null;
  /** The session is made of what was taken from the shelf, not of the plan. */
  readonly fromShelf: boolean;
  /** Goes to a session of what was taken from the shelf. */
  playShelf(): void;
  /** Starts today's session of the plan. */
  startPlanned(microphone: boolean, tempoBpm?: number): Promise<void>;
  /** Starts what was taken from the shelf. */
  startShelf(blocks: readonly SessionBlock[], microphone: boolean, tempoBpm?: number): Promise<void>;
  /** Chooses the families that count for closing, null for all of the plan. */
  setClosing(families: readonly Family[] | null): Promise<void>;
  /** Closes the sticking point of the plan, puts it aside, or opens it again. */
  setPoint(is: 'open' | 'paused' | 'closed'): Promise<void>;
  /** Writes into the diary, and looks at what was ever written: corrections, entries by hand, tables. */
  readonly book: Book;
}

export interface Book {
  /** All of them or none. */
  write(drafts: readonly RecordDraft[]): Promise<boolean>;
  /** Of every record that was ever written. */
  ids(): Promise<readonly string[]>;
  /** A record as it was written, with every correction of it. */
  historyOf(id: string): Promise<readonly DiaryRecord[]>;
}

/** Makes the whole desk behind a front desk whose diary is open, and begins what waits: takes to be completed, days to be caught up. */
export function createDesk(behind: BehindDesk<Desk>): Desk {
  learnAllSentences();
  const { front, store, append, refresh } = behind;
  const sounding: Sounding = {
    clickSound: () => settings().clickSound,
    countsIn: () => (settings().countIn === 'spoken' ? { lang: lang() } : null),
  };
  const room: Room = { ...behind.room, ...machinesOn(behind.room.storeName, sounding) };
  const { turn, go } = front;
  const ring = () => front.ring;
  const diary = () => front.diary;
  const settings = () => front.settings;
  let fromShelf = $state(false);
  let byPlan = false;

  const given = createGiven();
  const listening = createListening(room);
  const placing = createPlacing(room);
  const taking = createTaking(room, { ring, turn });
  behind.onLeave(() => {
    // A microphone is never left open on a screen that does not show it: the take ends and is heard.
    if (ring().take.at === 'recording') void taking.stop();
    listening.stop();
    // Whoever comes back to the session finds the one of the plan again.
    fromShelf = false;
  });
  const judged = () => ({ tolerance: settings().tolerance, shapes: ring().phrase.shapes });
  const sitting = createSitting(room, store, sessionOver, judged);
  const sounds = takeSounds(room, { store, diary });
  const keeping = createKeeping(room, store, {
    writtenAtMs: behind.writtenAtMs,
    replacing(work) {
      stopWorkingOut();
      return behind.replacing(work);
    },
  });
  const cutOffs = cutOffSessions({ diary, store, append, refresh });
  const cutOff = () => (sitting.state ? null : cutOffs.last);
  const points = pointKeeper(room, { ring, diary, append });
  const planning = createPlanning(room, { ring, turn, settings, diary, append, cutOff: () => cutOffs.last, savePoint: points.save });
  const { dropped } = planning;
  const shelving = createShelving(room, { ring, turn, settings, diary, append, refresh, savePoint: points.save, dropped });

  const packing = packAtRest(
    () =>
      !sitting.starting &&
      searching.stage.at !== 'playing' &&
      (sitting.state ?? OVER).phase === OVER.phase &&
      ring().take.at === 'idle' &&
      keeping.stage.at !== 'working',
    async () => {
      await store()?.tend();
      // Nothing was recorded yet: no ear is started to find that out.
      return (await store()?.holdsTakes()) ? room.ear().packTake() : { value: null, problems: [] };
    },
  );

  async function sessionOver(ended: SessionState): Promise<void> {
    await refresh();
    if (byPlan) await planning.sessionOver(ended);
  }

  /** Voices speak English as the player's notes are named. */
  const lang = () => (settings().noteNames === 'british' ? 'en-GB' : 'en-US');

  const steered = () => {
    const { startBy, tempoFollows, tellBy } = settings();
    const four = startBy === 'touch' ? null : startBy;
    return { four, follows: tempoFollows, tellBy, lang: lang() };
  };

  const searching = createSearching(room, {
    append,
    judged,
    stickingPointId: () => planning.standing?.stickingPointId ?? null,
    async over() {
      await refresh();
      await planning.sessionOver({ hurt: false });
    },
  });

  // Whoever goes elsewhere ends it, with what there is.
  behind.onLeave(() => (searching.stage.at === 'playing' ? searching.stop() : searching.leave()));

  const earlier = (view: DiaryView | null = diary()) => (view ? workResults(resultsOf(view)) : []);

  async function begin(): Promise<void> {
    await behind.allRead();
    behind.onRead(cutOffs.watch);
    behind.onRead(workOut);
    cutOffs.watch(diary()!);
    store()?.onChange(packing.wake);
    packing.wake();
    atRest(() => void sounds.freeOverdue());
    if (await store()?.holdsOpenTake()) void room.ear().recoverTakes();
    await planning.catchUp();
    workOut();
  }

  const workOut = (): void => {
    if (diary() && !sitting.state && searching.stage.at !== 'playing') workOutAtRest(diary()!, planning.standing, front.today);
  };

  const rest: Omit<Desk, keyof FirstDesk> = {
    machines: room,
    taking,
    placing,
    sitting,
    searching,
    keeping,
    planning,
    listening,
    shelving,
    given,
    lookAt: (hash) => void given.look(hash),
    takeGiven() {
      const { exercise } = given;
      const tempoBpm = given.tempoBpm ?? tempoOf(ring().phrase) ?? Number(emptyPhrase.tempo);
      if (exercise) turn({ kind: 'phraseEdited', change: phraseOf({ ...exercise, tempoBpm }) });
      given.putAway();
    },
    mean(change) {
      turn({ kind: 'phraseEdited', change });
      const { heard, phrase } = ring();
      if (heard) turn({ kind: 'judgedAnew', heard: judgedAnew(heard, phrase) });
    },
    async keepSetup(setup) {
      const written = await append([{ kind: 'setup', ...room.writtenNow(), body: setup }]);
      await refresh();
      return written;
    },
    get welcomeBack() {
      const view = diary();
      return view ? welcomeBack(practisedOf(view), room.writtenNow().day, settings().daysAwayFine) : null;
    },
    get cutOff() {
      return cutOff();
    },
    async closeCutOff() {
      const cut = cutOff();
      if (!cut) return;
      await append(closing(cut, room));
      await refresh();
      await planning.sessionOver({ hurt: false });
    },
    get fromShelf() {
      return fromShelf;
    },
    playShelf() {
      go('session');
      fromShelf = true;
    },
    async startPlanned(microphone, tempoBpm) {
      await behind.allRead();
      byPlan = true;
      const { standing, goesOn } = planning;
      const blocks = startedAt(planning.blocks(), tempoBpm);
      await sitting.start(blocks, { microphone, stickingPointId: standing?.stickingPointId ?? null, earlier: earlier(), ...steered(), goesOn });
    },
    async startShelf(blocks, microphone, tempoBpm) {
      await behind.allRead();
      byPlan = false;
      await sitting.start(startedAt(blocks, tempoBpm), { microphone, stickingPointId: points.id(), earlier: earlier(), ...steered() });
      fromShelf = false;
    },
    async setClosing(families) {
      await planning.setClosing(families);
      await refresh();
    },
    async setPoint(is) {
      await planning.setPoint(is);
      await refresh();
      // What was put aside for days moves on when it is worked on again.
      if (is === 'open') await planning.catchUp();
    },
    async set(name, value) {
      const written = await append([{ kind: 'setting', ...room.writtenNow(), body: { name, value } }]);
      await refresh();
      const { phrase, cell } = ring();
      // A phrase that is not begun yet begins on the drums that are at hand now.
      if (phrase.sticking === '') turn({ kind: 'phraseEdited', change: { drums: firstDrums(settings()) } });
      // Another hand, other drums or another piece make another shelf.
      if (cell && ['hand', 'foot', 'openHanded', 'atHand', 'ownDrums', 'pieceTitle'].includes(name)) turn({ kind: 'cellChosen', cell });
      return written;
    },
    openAnew: () => location.reload(),
    async demoAnew() {
      room.stopEar();
      const problems = (await room.forget?.()) ?? [];
      behind.tell(problems);
      if (problems.length === 0) location.reload();
    },
    soundOf: sounds.soundOf,
    letGoOn: sounds.letGoOn,
    soundingTake: sounds.soundingTake,
    book: {
      async write(drafts) {
        const written = await append(drafts);
        await refresh();
        return written;
      },
      ids: async () => (await store()?.ids())?.value ?? [],
      historyOf: async (id) => (await store()?.historyOf(id))?.value ?? [],
    },
  };
  void begin();
  return Object.create(front, Object.getOwnPropertyDescriptors(rest));
}
