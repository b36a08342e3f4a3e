/** The page of the weeks as a file; fetched, with all that draws it, when it is first asked for. */
import { lifePdf, weeksPdf } from '@evenhand/adapters/report';
import type { DiaryView } from '@evenhand/core/diary';
import { lifePageBy, type WeeksAsked, weeksPage } from '@evenhand/core/plan';
import { saveFile } from '../backup/download.ts';
import type { Book } from './desk.svelte.ts';
import { playerPart } from './ownfiles.ts';
import { paperSize } from './paper.ts';
import { spoken } from './said.ts';

/** Saves the page of a plan as PDF. */
export async function saveWeeks(diary: DiaryView, asked: WeeksAsked): Promise<void> {
  const page = weeksPage(diary, asked);
  save(await weeksPdf(page, printed()), `weeks${playerPart()}-${page?.to ?? asked.today}`);
}

/** Saves the whole way of a plan's phrase over all its plans as PDF. @param book what was ever written: a plan names the one it took the place of. */
export async function saveLife(diary: DiaryView, asked: WeeksAsked, book: Pick<Book, 'historyOf'>): Promise<void> {
  const page = await lifePageBy(diary, asked, async (id) => (await book.historyOf(id)).find((record) => record.id === id) ?? null);
  save(await lifePdf(page, printed()), `whole-way${playerPart()}-${page?.to ?? asked.today}`);
}

const printed = () => ({ madeMs: Date.now(), language: spoken(), size: paperSize() });

const save = (bytes: Uint8Array, name: string): void => saveFile(new Blob([new Uint8Array(bytes)], { type: 'application/pdf' }), `${name}.pdf`);
