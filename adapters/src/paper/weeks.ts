/** The page of the weeks on paper: what was aimed at, done and heard, and the decision, on one sheet. */
import { openPaper, type Paper, type PrintedAs, write } from './page.ts';
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
  /** Whether a row is a week or a whole plan. */
  readonly rowsAre: 'weeks' | 'plans';
  readonly others: readonly SheetPart[];
}

/** What the file says of itself. */
export interface WeeksPaper extends PrintedAs {
  /** What stands there when there is no sheet. */
  readonly nothing: string;
}

/** The sheet as PDF, tagged; in smaller type where it would not be one sheet. The same sheet gives the same bytes. */
export async function weeksPaper(sheet: WeeksSheet | null, info: WeeksPaper): Promise<Uint8Array> {
  const paper = await drawn(sheet, info, 1);
  return (paper.pageCount > 1 ? await drawn(sheet, info, P.SMALLER_TYPE) : paper).finish();
}

async function drawn(sheet: WeeksSheet | null, { nothing, ...printed }: WeeksPaper, scale: number): Promise<Paper> {
  const title = sheet?.title ?? nothing;
  const paper = await openPaper({ ...printed, title, foot: (page) => (sheet ? `${title}, ${page}` : ''), scale });
  if (sheet) drawSheet(paper, sheet);
  else write(paper, nothing, TEXT);
  return paper;
}

function drawSheet(paper: Paper, { title, under, aimed, done, table, rowsAre, others }: WeeksSheet): void {
  write(paper, title, { tag: 'H1', face: 'semibold', size: P.TITLE_SIZE });
  if (under) write(paper, under, TEXT);
  section(paper, aimed.heading, () => drawLines(paper, aimed.lines));
  section(paper, done.heading, () => {
    drawLines(paper, done.lines);
    paper.y += P.GAP;
    drawTable(paper, table, rowsAre === 'weeks' ? P.WEEK_COLUMNS : P.PLAN_COLUMNS);
  });
  for (const { heading, lines } of others) section(paper, heading, () => drawLines(paper, lines));
}
