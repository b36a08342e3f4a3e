/** The whole diary in one picture as a file; fetched, with all that writes it, when it is first asked for. */
import { wholeCsv, wholeSvg } from '@evenhand/adapters/report';
import type { WholeDiary } from '@evenhand/core/progress';
import { saveFile } from '../backup/download.ts';
import { playerPart } from './ownfiles.ts';
import { spoken } from './said.ts';
import { asPng } from './svgpng.ts';
import type { LanesKnown } from './whole.ts';

/** Saves it as a picture or as a table. */
export async function saveWhole(whole: WholeDiary, known: LanesKnown, kind: 'png' | 'svg' | 'csv'): Promise<void> {
  saveFile(await fileOf(whole, known, kind), `whole-diary${playerPart()}-${whole.to}.${kind}`);
}

async function fileOf(whole: WholeDiary, { tempi, moves }: LanesKnown, kind: 'png' | 'svg' | 'csv'): Promise<Blob> {
  if (kind === 'csv') return new Blob([wholeCsv(whole, tempi, moves)], { type: 'text/csv' });
  const svg = wholeSvg(whole, tempi, { moves, language: spoken() });
  return kind === 'png' ? asPng(svg) : new Blob([svg], { type: 'image/svg+xml' });
}
