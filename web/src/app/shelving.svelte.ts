/** What the drummer does at the shelf: lays it out, asks for more, keeps, drops, changes and writes exercises. */
import type { DiaryView, RecordDraft } from '@evenhand/core/diary';
import { beyondSoFar, type Exercise, exercisesFor, readFocus } from '@evenhand/core/exercise';
import { type ReachStatement, reachSoFar, toldBeyond, usualReach } from '@evenhand/core/kit';
import { resultsOf } from '@evenhand/core/progress';
import { arranged, type Choices, choicesOf, NO_CHOICES, type Stands, shelfIdOf } from './choices.ts';
import { painted } from './painted.ts';
import { contentOf, readingOf, tempoOf } from './phrase.ts';
import { nextTempi } from './results.ts';
import type { Cell, Ring, RingEvent } from './ring.ts';
import type { Room } from './room.ts';
import { savedExercise } from './savedplan.ts';
import { handFirst, type Settings, shelfOptions } from './settings.ts';
import { furtherDozen } from './shelffurther.ts';
import { burstsPlayed, START_SHARE, whatIsKnown } from './shelfknown.ts';

export interface Shelving {
  /** What was said of the exercises of the phrase. */
  readonly choices: Choices;
  /** Fills the shelf for the cell that is chosen, unless it is filled. */
  fill(): Promise<void>;
  /** Adds a dozen variations to what lies on the shelf. */
  grow(): void;
  /** Keeps an exercise, drops it, or takes back what was said of it. For good: the diary has it. */
  choose(exercise: Exercise, is: Stands): Promise<void>;
  /** What an exercise asks at its tempo beyond this player's reach so far, to be said. */
  beyond(exercise: Exercise, tempoBpm: number): readonly ReachStatement[];
  /** Lays an exercise of the drummer's own on the shelf, beside the one it was made of. False: the shelf has it already. */
  write(exercise: Exercise, from: Exercise | null): Promise<boolean>;
}

interface Stand {
  ring(): Ring;
  turn(event: RingEvent): void;
  settings(): Settings;
  diary(): DiaryView | null;
  append(drafts: readonly RecordDraft[]): Promise<boolean>;
  /** Reads the diary anew. */
  refresh(): Promise<void>;
  /** Told when an exercise was dropped. */
  dropped(exerciseId: string): Promise<void>;
  /** Keeps the phrase with its cell. */
  savePoint(cell: Cell): Promise<unknown>;
}

/** @param stand where ring and diary are read and the diary is written. */
export function createShelving(room: Room, stand: Stand): Shelving {
  const choices = $derived.by(() => {
    const diary = stand.diary();
    return diary ? choicesOf(diary, shelfIdOf(stand.ring().phrase)) : NO_CHOICES;
  });

  async function fill(): Promise<void> {
    const { phrase, cell, shelf } = stand.ring();
    const sticking = readingOf(phrase).value;
    const tempoBpm = tempoOf(phrase);
    if (!sticking || tempoBpm === null || !cell || shelf !== null) return;
    stand.turn({ kind: 'shelfAsked' });
    // Laying out takes a tenth of a second, more on a phone: that it goes on is seen first.
    await painted();
    if (stand.ring().shelf !== 'filling' || stand.ring().cell !== cell) return;
    const focus = readFocus(cell, sticking);
    const content = contentOf(phrase, sticking);
    const diary = stand.diary();
    const settings = stand.settings();
    const asked = { tempoBpm: tempoBpm * START_SHARE, today: room.writtenNow().day, hand: settings.hand };
    const options = { ...shelfOptions(settings, content.surfaces), ...whatIsKnown(diary ? resultsOf(diary) : [], asked) };
    const exercises = focus.value ? handFirst(exercisesFor(content, focus.value, options).exercises, settings.hand) : [];
    stand.turn({
      kind: 'shelfFilled',
      exercises: arranged(exercises, choices),
      problems: focus.problems,
      tempoBpm: Math.round(tempoBpm * START_SHARE),
      knownTempi: diary ? nextTempi(diary) : {},
    });
    await stand.savePoint(cell);
  }

  function grow(): void {
    const { phrase, cell, shelf } = stand.ring();
    const sticking = readingOf(phrase).value;
    const focus = sticking && cell && readFocus(cell, sticking).value;
    if (!focus || !shelf || shelf === 'filling') return;
    const content = contentOf(phrase, sticking);
    const there = [...shelf.exercises, ...choices.dropped];
    stand.turn({ kind: 'shelfGrown', exercises: furtherDozen(content, focus, { ...shelfOptions(stand.settings(), content.surfaces), there }) });
  }

  /** Reach by results, as of the diary that stands. */
  const known = $derived.by(() => {
    const diary = stand.diary();
    const played = burstsPlayed(diary ? resultsOf(diary) : []);
    return { played, reach: reachSoFar(played, usualReach(stand.settings().hand)) };
  });

  async function say(exercise: Exercise, is: Stands, own: boolean): Promise<boolean> {
    const phraseId = shelfIdOf(stand.ring().phrase);
    if (phraseId === null) return false;
    const body = { exercise: savedExercise(exercise), phraseId, is, own };
    const kept = await stand.append([{ kind: 'choice', ...room.writtenNow(), body }]);
    await stand.refresh();
    return kept;
  }

  return {
    get choices() {
      return choices;
    },
    fill,
    grow,
    beyond(exercise, tempoBpm) {
      const { phrase } = stand.ring();
      const sticking = readingOf(phrase).value;
      const settings = stand.settings();
      if (!sticking) return [];
      const { reach, played } = known;
      return beyondSoFar(exercise, contentOf(phrase, sticking), { tempoBpm, reach, side: settings.foot }).map((each) => toldBeyond(each, played));
    },
    async choose(exercise, is) {
      if (!(await say(exercise, is, choices.own.has(exercise.id)))) return;
      if (is === 'dropped') {
        stand.turn({ kind: 'exerciseDropped', id: exercise.id });
        await stand.dropped(exercise.id);
      } else stand.turn({ kind: 'exerciseLaid', exercise, beside: null });
    },
    async write(exercise, from) {
      const { shelf } = stand.ring();
      const there = shelf && shelf !== 'filling' && shelf.exercises.some(({ id }) => id === exercise.id);
      if (there && choices.stands.get(exercise.id) !== 'dropped') return false;
      if (await say(exercise, 'open', true)) stand.turn({ kind: 'exerciseLaid', exercise, beside: from?.id ?? null });
      return true;
    },
  };
}
