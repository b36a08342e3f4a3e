/** The lanes of a sheet: what stands above and below the staff keeps its height from the first line to the last, and only what the sheet needs has one. */
import { headsOf } from './heads.ts';
import { ACCENT_LANE, COUNT_LANE, MARGIN, SPACE, TUPLET_CLEAR, TUPLET_LANE } from './parameters.ts';
import type { Written, WrittenVoice } from './rhythm.ts';
import { letterLane, letterRows } from './rows.ts';
import type { SheetOptions } from './sheet.ts';
import { beamReach, type VoiceLanes } from './staff.ts';

/** Heights within a line, px from its top. */
export interface Lanes {
  readonly up: VoiceLanes;
  readonly down: VoiceLanes;
  readonly staffY: number;
  readonly lettersY: number;
  /** Rows of letters of the first voice. */
  readonly rowsAbove: number;
  /** Baselines of the rows that were asked for, else the last baseline there is. */
  readonly typesY: number;
  readonly countsY: number;
  readonly height: number;
}

/** The lanes for what is written. */
export function lanesOf({ bars }: Written, options: SheetOptions): Lanes {
  const voices = bars.flatMap((bar) => bar.voices);
  const [up, down] = (['up', 'down'] as const).map((stem) => needsOf(voices.filter((voice) => voice.stem === stem)));
  const clear = up!.tupletRows > 0 ? TUPLET_CLEAR : 0;
  const accentY = MARGIN + up!.tupletRows * TUPLET_LANE + clear;
  const beamY = accentY + (up!.accents ? ACCENT_LANE : 0) + 2;
  const staffY = beamY + up!.reach('up') - 2 * SPACE;
  const upper: VoiceLanes = { beamY, accentY, tupletY: accentY - clear - (clear > 0 ? TUPLET_LANE / 2 : 0) };
  const lower = lowerLanes(down!, staffY);
  const below = down!.notes.length > 0 ? lower.end : belowHeads(up!, staffY);
  const rows = lettersIn(up!, down!, options);
  const graces = up!.notes.some(({ strokes }) => strokes.some(({ stroke }) => stroke.graces.length > 0));
  const lane = letterLane(options);
  const lettersY = Math.max(below, staffY + 4 * SPACE + (graces ? 4 : 0)) + lane;
  const lastLetters = lettersY + Math.max(0, rows.all - 1) * lane - (rows.all === 0 ? lane : 0);
  const typesY = lastLetters + (options.strokeTypes ? COUNT_LANE : 0);
  const countsY = typesY + (options.counts ? COUNT_LANE : 0);
  return { up: upper, down: lower, staffY, lettersY, rowsAbove: rows.above, typesY, countsY, height: countsY + SPACE };
}

/** What a voice asks for. */
interface Needs {
  readonly notes: WrittenVoice['notes'];
  readonly tupletRows: number;
  readonly accents: boolean;
  readonly reach: (stem: 'up' | 'down') => number;
}

function needsOf(voices: readonly WrittenVoice[]): Needs {
  const notes = voices.flatMap((voice) => voice.notes);
  const tuplets = voices.flatMap((voice) => voice.tuplets);
  return {
    notes,
    tupletRows: tuplets.length === 0 ? 0 : tuplets.some(({ inner }) => inner) ? 2 : 1,
    accents: notes.some(({ strokes }) => strokes.some(({ stroke }) => stroke.accent)),
    reach: (stem) => beamReach(notes, stem),
  };
}

/** Beams under the heads, then accents, then numbers. */
function lowerLanes(down: Needs, staffY: number): VoiceLanes & { readonly end: number } {
  const beamY = staffY + 2 * SPACE + down.reach('down');
  const accentY = beamY + 2;
  const numbersY = accentY + (down.accents ? ACCENT_LANE : 0);
  return { beamY, accentY, tupletY: numbersY + TUPLET_CLEAR + TUPLET_LANE / 2, end: numbersY + down.tupletRows * (TUPLET_LANE + TUPLET_CLEAR) };
}

/** Under the lowest head of a voice with stems up. */
function belowHeads({ notes }: Needs, staffY: number): number {
  const lowest = Math.min(-4, ...notes.flatMap((note) => headsOf(note).map(({ drum }) => drum.step)));
  return staffY + 2 * SPACE - lowest * (SPACE / 2) + SPACE / 2;
}

/** Rows of letters: of the first voice, and of both. */
function lettersIn(up: Needs, down: Needs, options: SheetOptions): { readonly above: number; readonly all: number } {
  if (options.letters === false) return { above: 0, all: 0 };
  const above = Math.max(0, ...up.notes.map(letterRows));
  const below = Math.max(0, ...down.notes.map(letterRows));
  return { above, all: Math.max(1, above + below) };
}
