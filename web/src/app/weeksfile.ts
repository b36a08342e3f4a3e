/** The page of the weeks as a file; fetched, with all that draws it, when it is first asked for. */
import { weeksPdf } from '@evenhand/adapters/report';
import type { DiaryView } from '@evenhand/core/diary';
import { type WeeksAsked, weeksPage } from '@evenhand/core/plan';
import { saveFile } from '../backup/download.ts';
import { playerPart } from './ownfiles.ts';
import { paperSize } from './paper.ts';
import { spoken } from './said.ts';

/** Saves the page of a plan as PDF. */
export async function saveWeeks(diary: DiaryView, asked: WeeksAsked): Promise<void> {
  const page = weeksPage(diary, asked);
  const bytes = await weeksPdf(page, { madeMs: Date.now(), language: spoken(), size: paperSize() });
  saveFile(new Blob([new Uint8Array(bytes)], { type: 'application/pdf' }), `weeks${playerPart()}-${page?.to ?? asked.today}.pdf`);
}
