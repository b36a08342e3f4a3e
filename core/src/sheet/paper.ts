/** What a printed practice sheet says around its exercises, as codes; `words` makes sentences of them. */
import type { Statement } from '../problem.ts';

/** The foot of a page, what the boxes for tempi are for, and days of the week from Monday, 0 to 6. */
export type PaperStatement =
  | Statement<'paper-page', { readonly title: string; readonly page: number }>
  | Statement<'paper-tempo', { readonly perBeat: number }>
  | Statement<'paper-start', { readonly perBeat: number; readonly startBpm: number }>
  | Statement<'paper-weekday', { readonly day: number }>;
