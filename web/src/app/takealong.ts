/** Exercises leave the app: as a file, as text, as a link that opens them again. */
import type { SheetKind } from '@evenhand/adapters/sheet-file';
import { type Exercise, type ExerciseContent, ownExercise, readContent } from '@evenhand/core/exercise';
import { readName } from '@evenhand/core/kit';
import { readSticking } from '@evenhand/core/sticking';
import { saveFile } from '../backup/download.ts';
import { EXERCISE_MARK, holdsExercise } from './address.ts';
import type { HeardPhrase } from './heardphrase.ts';
import { minutesName, shortDay, tempoName } from './labels.ts';
import { playerPart } from './ownfiles.ts';
import { paperSize } from './paper.ts';
import { contentOf, tempoOf } from './phrase.ts';
import type { PlanWeek } from './planning.ts';
import { say } from './said.ts';
import type { SheetLook } from './sheetlook.svelte.ts';
import { todayBlocks } from './today.ts';

/** Saves an exercise as a file; the writers are fetched when the first is asked for. */
export async function saveExercise(
  exercise: Exercise,
  kind: SheetKind,
  { tempoBpm, click, rows }: { readonly tempoBpm: number; readonly click: boolean; readonly rows?: SheetLook['rows'] },
) {
  const { SHEET_KINDS, sheetFile } = await import('@evenhand/adapters/sheet-file');
  const { ending, mediaType } = SHEET_KINDS[kind];
  const bytes = await sheetFile(kind, exercise, {
    title: say(exercise.title),
    tempoBpm,
    click,
    ...rows,
    madeMs: Date.now(),
    size: paperSize(),
  });
  saveFile(new Blob([new Uint8Array(bytes)], { type: mediaType }), `${fileName(say(exercise.title))}${ending}`);
}

/** A week on paper. */
export interface PaperWeek {
  readonly title: string;
  readonly lines: readonly string[];
}

/** Saves a practice sheet of some exercises, each with its reason, its tempo and boxes for the week. */
export async function savePracticeSheet(
  title: string,
  exercises: readonly { readonly exercise: Exercise; readonly tempoBpm: number }[],
  options: { readonly week?: readonly PaperWeek[]; readonly large?: boolean } & SheetLook['rows'] = {},
): Promise<void> {
  const { practiceSheet } = await import('@evenhand/adapters/paper');
  const bytes = await practiceSheet({
    title,
    exercises: exercises.map(({ exercise, tempoBpm }) => ({
      content: exercise,
      title: say(exercise.title),
      reason: say(exercise.reason),
      startBpm: tempoBpm,
    })),
    madeMs: Date.now(),
    size: paperSize(),
    ...options,
  });
  saveFile(new Blob([new Uint8Array(bytes)], { type: 'application/pdf' }), `${fileName(title)}.pdf`);
}

/** Saves what was heard as a page for a student: the sentence, the ring, the strokes, what to try. @param day practice day. */
export async function saveReport({ phrase, measurement, findings }: HeardPhrase, day: string): Promise<void> {
  const sticking = readSticking(phrase.sticking).value;
  if (!sticking) return;
  const { reportPdf } = await import('@evenhand/adapters/report');
  const content = contentOf(phrase, sticking);
  const bytes = await reportPdf([{ content, tempoBpm: measurement.tempoBpm, day, measurement, findings }], {
    day,
    madeMs: Date.now(),
    size: paperSize(),
  });
  saveFile(new Blob([new Uint8Array(bytes)], { type: 'application/pdf' }), `${fileName(sticking.text)}${playerPart()}.pdf`);
}

/** What a week of a plan holds, as it goes on paper: its days with their blocks, and each exercise of its work once. */
export function weekOnPaper({ sessions }: PlanWeek, exercises: readonly Exercise[]) {
  const week = sessions.map((session): PaperWeek => {
    const lines = todayBlocks(session, exercises).map(
      ({ planned, exercise }) => `${minutesName(planned.minutes)}  ${say(exercise.title)}, ${tempoName(planned.tempoBpm, exercise.perBeat)}`,
    );
    return { title: `${shortDay(session.date)}, ${minutesName(session.minutes)}`, lines };
  });
  const blocks = sessions.flatMap((session) => todayBlocks(session, exercises)).filter(({ planned }) => planned.part === 'work');
  const first = new Map(blocks.map(({ exercise }) => [exercise.id, blocks.find((block) => block.exercise.id === exercise.id)!]));
  return { week, exercises: [...first.values()].map(({ exercise, planned }) => ({ exercise, tempoBpm: planned.tempoBpm })) };
}

/** A title as a file may be called everywhere: letters, digits and hyphens, at most forty. */
export const fileName = (title: string): string =>
  title
    .normalize('NFKD')
    .replaceAll(/[^A-Za-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '')
    .slice(0, 40) || 'exercise';

/** An exercise as a message to somebody: what, how, on which drums, why. */
export function textOf(exercise: Exercise, tempoBpm: number): string {
  const drums = [...new Set(exercise.surfaces)].map(readName).join(', ');
  return [say(exercise.title), exercise.sticking, `${tempoName(tempoBpm, exercise.perBeat)}, ${drums}`, say(exercise.reason)].join('\n');
}

/** The address of this app that opens an exercise at a tempo. */
export function linkOf({ sticking, perBeat, meter, surfaces }: ExerciseContent, tempoBpm: number, base: string): string {
  const content = { s: sticking, n: String(perBeat), m: `${meter.beats}/${meter.unit}`, d: surfaces.join(' ') };
  const held = new URLSearchParams({ ...content, t: String(tempoBpm) });
  return `${base.replace(/[?#].*$/, '')}${EXERCISE_MARK}${held}`;
}

/** The exercise an address holds; null when it holds none, or none that reads. */
export function exerciseIn(hash: string): Exercise | null {
  if (!holdsExercise(hash)) return null;
  const held = new URLSearchParams(hash.slice(EXERCISE_MARK.length));
  const sticking = readSticking(held.get('s') ?? '').value;
  const [beats, unit] = (held.get('m') ?? '4/4').split('/').map(Number);
  if (!sticking || !isMeter(beats, unit)) return null;
  const content = readContent(sticking, { perBeat: Number(held.get('n')), surfaces: held.get('d') ?? '', meter: { beats: beats!, unit: unit! } });
  return content.value && ownExercise(content.value, '');
}

/** The tempo an address holds; null when it holds none that can be played. */
export function tempoIn(hash: string): number | null {
  return holdsExercise(hash) ? tempoOf({ tempo: new URLSearchParams(hash.slice(EXERCISE_MARK.length)).get('t') ?? '' }) : null;
}

/** Longest bar and note values a link may ask for. Assumption: past every meter in use. */
const MOST_BEATS = 32;
const UNITS: readonly (number | undefined)[] = [1, 2, 4, 8, 16];

const isMeter = (beats: number | undefined, unit: number | undefined): boolean =>
  Number.isInteger(beats) && beats! >= 1 && beats! <= MOST_BEATS && UNITS.includes(unit);
