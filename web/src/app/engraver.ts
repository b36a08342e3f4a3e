/** The engraver, fetched when the first sheet is to be drawn: it is larger than all the rest of the app. */
import type { Exercise } from '@evenhand/core/exercise';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface EngravedPage {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

export async function engrave(_exercise: Exercise, _options: { readonly widthPx: number; readonly large: boolean }): Promise<EngravedPage> {
  throw new Error('waiting for core sheet');
}

export const boxOf = (_page: EngravedPage, _due: { readonly cycle: number; readonly indices: readonly number[] }): Box | null => null;
