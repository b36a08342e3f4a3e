/** An exercise as a file to take along: a picture, a printed page, a file for notation programs, MIDI, or sound. */
import { barsUntilMet, type CountCountry, type ExerciseContent, expectedCycle, stickingOfContent } from '@evenhand/core/exercise';
import { seededRandom } from '@evenhand/core/random';
import { toNumber } from '@evenhand/core/rational';
import { beatSec } from '@evenhand/core/units';
import { say } from '@evenhand/core/words';
import type { PaperSize } from '../paper-size/index.ts';
import { utf8Of } from '../utf8.ts';

/** Kinds of file. */
export type SheetKind = 'svg' | 'pdf' | 'musicxml' | 'midi' | 'wav';

/** How a kind of file is called: end of its name, media type. */
export interface FileKind {
  readonly ending: string;
  readonly mediaType: string;
}

/** The kinds there are. */
export const SHEET_KINDS: Readonly<Record<SheetKind, FileKind>> = {
  svg: { ending: '.svg', mediaType: 'image/svg+xml' },
  pdf: { ending: '.pdf', mediaType: 'application/pdf' },
  musicxml: { ending: '.musicxml', mediaType: 'application/vnd.recordare.musicxml+xml' },
  midi: { ending: '.mid', mediaType: 'audio/midi' },
  wav: { ending: '.wav', mediaType: 'audio/wav' },
};

/** What may be said of a file; what a kind has no place for it leaves out. */
export interface SheetFileOptions {
  /** Title; default the sticking. */
  readonly title?: string;
  /** What a screen reader says of the picture; default its strokes one by one. */
  readonly label?: string;
  /** Beats per minute; default 60, and in notation none. */
  readonly tempoBpm?: number;
  /** In sound: a click with it. Default false. */
  readonly click?: boolean;
  /** In pictures and print: the row of counting, and of stroke types. Default none. */
  readonly counts?: CountCountry;
  readonly strokeTypes?: boolean;
  /** In print: when it was made, ms since 1970, since the file tells it; default 1970. */
  readonly madeMs?: number;
  /** In print: what it is printed on; A4 unless said. */
  readonly size?: PaperSize | undefined;
}

/** Bars of a picture at most. Assumption: two pages; a cycle that needs more is told to. */
const MOST_BARS = 32;

/** Beats per minute of sound when none are told, as MIDI has it. Assumption. */
const TEMPO_BPM = 60;

/** Sound goes on for so many seconds at least: whole times through, until the cycle meets the bar line. Assumption: long enough to play along. */
const SOUND_SEC = 30;

/** Quiet before the first beat, so that a flam on it is heard. Assumption: no device needs more to open. */
const LEAD_SEC = 0.2;

const SAMPLE_RATE_HZ = 44_100;

/**
 * The bytes of an exercise as a file. Pure but for loading its parts when first needed: the same exercise and options give the same bytes.
 * Whole cycles until they meet the bar line; a picture stops after 32 bars and says so.
 */
export async function sheetFile(kind: SheetKind, content: ExerciseContent, options: SheetFileOptions = {}): Promise<Uint8Array> {
  const { title, label, tempoBpm, counts, strokeTypes } = options;
  const named = { ...(title === undefined ? {} : { title }), ...(tempoBpm === undefined ? {} : { tempoBpm }) };
  if (kind === 'wav') return soundFile(content, options);
  if (kind === 'pdf') return paperFile(content, options);
  const sheet = await import('@evenhand/core/sheet');
  if (kind === 'musicxml') return utf8Of(sheet.musicXml(content, named));
  if (kind === 'midi') return sheet.midiFile(content, named);
  const spoken = label ?? say(sheet.spokenSheet(content));
  const drawn = { label: spoken, barLimit: MOST_BARS, ...(counts ? { counts } : {}), ...(strokeTypes ? { strokeTypes } : {}) };
  return utf8Of(sheet.engraveSvg(content, drawn));
}

/** The exercise alone on a page. */
async function paperFile(content: ExerciseContent, { title = content.sticking, tempoBpm, counts, strokeTypes, madeMs = 0, size }: SheetFileOptions) {
  const { practiceSheet } = await import('../paper/index.ts');
  return practiceSheet({
    title,
    exercises: [{ content, title: content.sticking, ...(tempoBpm === undefined ? {} : { startBpm: tempoBpm }) }],
    madeMs,
    size,
    ...(counts ? { counts } : {}),
    ...(strokeTypes ? { strokeTypes } : {}),
  });
}

/** The exercise played by our own drums, over and over. */
async function soundFile(content: ExerciseContent, { tempoBpm = TEMPO_BPM, click = false }: SheetFileOptions): Promise<Uint8Array> {
  const [{ renderExercise }, { writeWav }] = await Promise.all([import('@evenhand/core/sound'), import('@evenhand/core/take')]);
  const samples = renderExercise(expectedCycle(content), {
    tempoBpm,
    cycles: cyclesFor(content, SOUND_SEC / beatSec(tempoBpm)),
    sampleRateHz: SAMPLE_RATE_HZ,
    random: seededRandom(1),
    leadSec: LEAD_SEC,
    ...(click ? { clickBeats: content.meter.beats } : {}),
  });
  return writeWav(samples, SAMPLE_RATE_HZ, { bits: 16 });
}

/** Cycles that last so many beats, rounded up to the next bar line they meet. */
function cyclesFor(content: ExerciseContent, beats: number): number {
  const { slotCount } = stickingOfContent(content);
  const bars = barsUntilMet(slotCount, content.perBeat, content.meter);
  const cycles = (bars * content.meter.beats * content.perBeat) / slotCount;
  const lengthBeats = cycles * toNumber(expectedCycle(content).lengthBeats);
  return cycles * Math.max(1, Math.ceil(beats / lengthBeats));
}
