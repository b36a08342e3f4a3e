/// <reference path="./pdfkit.d.ts" />
/** Practice sheets to print: exercises engraved, boxes for tempi by hand, the week. */
import type { CountCountry, ExerciseContent } from '@evenhand/core/exercise';
import { type DrawnSheet, drawSheet, spokenSheet } from '@evenhand/core/sheet';
import { type Language, say } from '@evenhand/core/words';
import { drawMarks } from './draw.ts';
import { heightOf, openPaper, type Paper, type PrintedAs, write } from './page.ts';
import * as P from './parameters.ts';

/** An exercise on paper. */
export interface PaperExercise {
  readonly content: ExerciseContent;
  readonly title: string;
  /** Why it is there; default nothing. */
  readonly reason?: string;
  /** Tempo it starts at, beats per minute; default none is told. */
  readonly startBpm?: number;
}

/** A day of the week on paper, as the app words it. */
export interface PaperDay {
  readonly title: string;
  readonly lines: readonly string[];
}

/** What a practice sheet holds. */
export interface PracticeSheet extends PrintedAs {
  readonly title: string;
  readonly exercises: readonly PaperExercise[];
  /** Days with what is to be practised; default none. */
  readonly week?: readonly PaperDay[];
  /** Boxes for tempi by hand under each exercise, one for each day of a week; default true. */
  readonly tempoBoxes?: boolean;
  /** Larger notes and letters, to be read from a music stand; default false. */
  readonly large?: boolean;
  readonly counts?: CountCountry;
  readonly strokeTypes?: boolean;
}

/**
 * A practice sheet as PDF, tagged, every engraving with its strokes as alternative text. The same sheet gives the same bytes.
 * @example await practiceSheet({ title: 'The pair', exercises: [{ content, title: 'KK under hi-hat' }], madeMs: Date.now() })
 */
export async function practiceSheet(sheet: PracticeSheet): Promise<Uint8Array> {
  const { title, language = 'en', size, madeMs } = sheet;
  const foot = (page: number) => say({ code: 'paper-page', params: { title, page } }, language);
  const paper = await openPaper({ title, language, size, madeMs, foot });
  const type = sheet.large ? P.LARGE_TYPE : 1;
  write(paper, title, { tag: 'H1', face: 'semibold', size: P.TITLE_SIZE * type });
  paper.y += P.BLOCK_GAP;
  sheet.exercises.forEach((exercise, i) => {
    drawExercise(paper, exercise, { sheet, number: i + 1, type, language });
  });
  if (sheet.week && sheet.week.length > 0) drawWeek(paper, sheet.week, type);
  return paper.finish();
}

interface ExercisePlace {
  readonly sheet: PracticeSheet;
  readonly number: number;
  /** Factor of text sizes. */
  readonly type: number;
  readonly language: Language;
}

function drawExercise(paper: Paper, exercise: PaperExercise, { sheet, number, type, language }: ExercisePlace): void {
  const wanted = sheet.large ? P.LARGE_SCALE : P.SCALE;
  const drawn = drawSheet(exercise.content, {
    widthPx: paper.width / wanted,
    barLimit: P.SHEET_BARS,
    barRepeats: true,
    ...(sheet.counts ? { counts: sheet.counts } : {}),
    ...(sheet.strokeTypes ? { strokeTypes: true } : {}),
  });
  // A beat that needs more than a line makes the sheet wider; it is printed smaller then.
  const scale = Math.min(wanted, paper.width / drawn.widthPx);
  const heading = { tag: 'H2', face: 'semibold', size: P.HEADING_SIZE * type } as const;
  const text = { tag: 'P', face: 'regular', size: P.TEXT_SIZE * type } as const;
  const title = `${number}  ${exercise.title}`;
  const reason = exercise.reason ?? '';
  const words = heightOf(paper, title, heading) + (reason ? heightOf(paper, reason, text) + P.GAP : 0);
  const boxes = sheet.tempoBoxes === false ? 0 : boxesHeight(type);
  // Boxes alone at the top of a page belong to nothing that is seen there: what fits half a page is kept together.
  const whole = words + P.GAP + drawn.heightPx * scale + boxes;
  const beginning = words + P.GAP + Math.min(drawn.heightPx, 2 * drawn.linePx) * scale;
  paper.need(whole <= paper.pageHeight / 2 ? whole : beginning);
  write(paper, title, heading);
  if (reason) write(paper, reason, text);
  paper.y += P.GAP;
  drawEngraving(paper, drawn, { scale, alt: say(spokenSheet(exercise.content), language) });
  if (boxes > 0) drawBoxes(paper, exercise, { type, language });
  paper.y += P.BLOCK_GAP;
}

/** The engraving, as many of its lines on a page as there is room for. */
function drawEngraving(paper: Paper, drawn: DrawnSheet, { scale, alt }: { readonly scale: number; readonly alt: string }): void {
  let line = 0;
  while (line < drawn.lineCount) {
    paper.need(drawn.linePx * scale);
    const fits = Math.max(1, Math.floor(paper.room() / (drawn.linePx * scale)));
    const restPx = drawn.heightPx - line * drawn.linePx;
    const whole = restPx * scale <= paper.room();
    const toLine = whole ? drawn.lineCount : Math.min(drawn.lineCount - 1, line + fits);
    const fromPx = line * drawn.linePx;
    const toPx = whole ? drawn.heightPx + 1 : toLine * drawn.linePx;
    const part = { x: paper.left, y: paper.y, scale, fromPx, toPx: Math.max(toPx, fromPx + 1), face: 'regular' };
    paper.root.add(
      paper.doc.struct('Figure', { alt: line === 0 ? alt : '…' }, () => {
        drawMarks(paper.doc, drawn.marks, part);
      }),
    );
    paper.y += (part.toPx - fromPx) * scale;
    if (toLine === line) paper.need(Number.POSITIVE_INFINITY);
    line = toLine;
  }
}

const boxesHeight = (type: number): number => P.GAP + P.SMALL_SIZE * type * 1.4 + P.BOX.height;

/** A box for each day of a week, with the note value the tempo is told in. */
function drawBoxes(paper: Paper, { content, startBpm }: PaperExercise, { type, language }: Pick<ExercisePlace, 'type' | 'language'>): void {
  const { doc } = paper;
  const size = P.SMALL_SIZE * type;
  paper.need(boxesHeight(type));
  const top = paper.y + P.GAP;
  const { perBeat } = content;
  const said = say(
    startBpm === undefined ? { code: 'paper-tempo', params: { perBeat } } : { code: 'paper-start', params: { perBeat, startBpm } },
    language,
  );
  paper.root.add(
    doc.struct('P', () => {
      doc
        .font('regular')
        .fontSize(size)
        .text(said, paper.left, top + size * 1.4 + P.BOX.height / 2 - size * 0.6, { lineBreak: false });
    }),
  );
  const right = paper.left + paper.width;
  const days = Array.from({ length: 7 }, (_, day) => ({ day, x: right - (7 - day) * (P.BOX.width + P.BOX.apart) + P.BOX.apart }));
  doc.markContent('Artifact', { type: 'Layout' });
  doc.lineWidth(0.6);
  for (const { day, x } of days) {
    doc.rect(x, top + size * 1.4, P.BOX.width, P.BOX.height).stroke();
    doc.font('regular').fontSize(size);
    doc.text(say({ code: 'paper-weekday', params: { day } }, language), x, top, { width: P.BOX.width, align: 'center', lineBreak: false });
  }
  doc.endMarkedContent();
  paper.y = top + size * 1.4 + P.BOX.height;
}

/** The days, each with a box to tick. */
function drawWeek(paper: Paper, week: readonly PaperDay[], type: number): void {
  const heading = { tag: 'H2', face: 'semibold', size: P.HEADING_SIZE * type, indent: P.BOX.height } as const;
  const text = { tag: 'P', face: 'regular', size: P.TEXT_SIZE * type, indent: P.BOX.height } as const;
  for (const { title, lines } of week) {
    const height = [title, ...lines].reduce((sum, line, i) => sum + heightOf(paper, line, i === 0 ? heading : text), 0);
    paper.need(height);
    paper.doc.markContent('Artifact', { type: 'Layout' });
    paper.doc
      .lineWidth(0.6)
      .rect(paper.left, paper.y + 2, heading.size, heading.size)
      .stroke();
    paper.doc.endMarkedContent();
    write(paper, title, heading);
    for (const line of lines) write(paper, line, text);
    paper.y += P.GAP * 2;
  }
}
