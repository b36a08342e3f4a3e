/** What this player prints on. It is set when the diary is read; every PDF of the app asks here. */
import type { PaperSize } from '@evenhand/adapters/paper-size';

let size: PaperSize = 'a4';

/** From now on pages are of this size. */
export function printOn(paper: PaperSize): void {
  size = paper;
}

export const paperSize = (): PaperSize => size;
