/** The page of the weeks on paper: what was aimed at, done and heard, and the decision, on one sheet. */
import type { Language } from '@evenhand/core/words';
import type { PaperSize } from '../paper-size/index.ts';
import { openPaper, type Paper, write } from './page.ts';
import * as P from './parameters.ts';
import { drawLines, drawTable, type PaperTable, type SheetPart, section, TEXT } from './parts.ts';

/** The sheet in words; every text is ready to be read. */
export interface WeeksSheet {
  readonly title: string;
  /** Stands small under the title; empty for nothing. */
  readonly under: string;
  readonly aimed: SheetPart;
  readonly done: SheetPart;
  readonly table: PaperTable;
  readonly others: readonly SheetPart[];
}

/** What the file says of itself. */
export interface WeeksPaper {
  /** What stands there when there is no sheet. */
  readonly nothing: string;
  readonly language?: Language;
  /** What it is printed on; A4 unless said. */
  readonly size?: PaperSize | undefined;
  /** When it is made, ms since 1970: stands in the file. */
  readonly madeMs: number;
}

/** The sheet as PDF, tagged; in smaller type where it would not be one sheet. The same sheet gives the same bytes. */
export async function weeksPaper(sheet: WeeksSheet | null, info: WeeksPaper): Promise<Uint8Array> {
  const { paper, pages } = await drawn(sheet, info, 1);
  return (pages > 1 ? (await drawn(sheet, info, P.SMALLER_TYPE)).paper : paper).finish();
}

async function drawn(
  sheet: WeeksSheet | null,
  { nothing, language = 'en', size, madeMs }: WeeksPaper,
  scale: number,
): Promise<{ readonly paper: Paper; readonly pages: number }> {
  const title = sheet?.title ?? nothing;
  let pages = 1;
  const foot = (page: number) => {
    pages = page;
    return sheet ? `${title}, ${page}` : '';
  };
  const paper = await openPaper({ title, language, size, madeMs, foot, scale });
  if (sheet) drawSheet(paper, sheet);
  else write(paper, nothing, TEXT);
  return { paper, pages };
}

function drawSheet(paper: Paper, { title, under, aimed, done, table, others }: WeeksSheet): void {
  write(paper, title, { tag: 'H1', face: 'semibold', size: P.TITLE_SIZE });
  if (under) write(paper, under, TEXT);
  section(paper, aimed.heading, () => drawLines(paper, aimed.lines));
  section(paper, done.heading, () => {
    drawLines(paper, done.lines);
    paper.y += P.GAP;
    drawTable(paper, table, P.WEEK_COLUMNS);
  });
  for (const { heading, lines } of others) section(paper, heading, () => drawLines(paper, lines));
}
