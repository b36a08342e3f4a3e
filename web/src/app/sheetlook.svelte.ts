/** How this player wants sheets: rows under the notes, and how large. It is set when the diary is read; sheets that are shown are drawn anew. */
import type { SheetOptions } from '@evenhand/core/sheet';
import type { Settings } from './settings.ts';

export interface SheetLook {
  readonly rows: Pick<SheetOptions, 'counts' | 'strokeTypes'>;
  readonly large: boolean;
}

let look = $state.raw<SheetLook>({ rows: {}, large: false });

/** From now on sheets look like this. */
export function lookAs({ countRow, strokeTypes, largeType }: Pick<Settings, 'countRow' | 'strokeTypes' | 'largeType'>): void {
  look = { rows: { ...(countRow === 'none' ? {} : { counts: countRow }), strokeTypes }, large: largeType };
}

export const sheetLook = (): SheetLook => look;

/** The same with the syllables that are counted aloud under the notes, as a country counts them; as in English unless another was chosen. */
export const countedLook = ({ rows, large }: SheetLook): SheetLook => ({ rows: { counts: 'en', ...rows }, large });
