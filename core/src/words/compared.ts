/** What the page of then and now says around its pictures; it stands here because the page is made by the apps, after `words`. */
import type { Statement } from '../problem.ts';

type Nothing = Record<string, never>;

/** What parts the two takes: weeks, one week, or the drums. */
export type Between = 'days' | 'week' | 'drums';

export type ThenNowStatement =
  | Statement<'then-now-title', { readonly of: Between }>
  | Statement<'then-now-side', { readonly of: Between; readonly side: 'then' | 'now'; readonly day: string }>
  | Statement<'then-now-heading', { readonly of: 'changed' | 'hear' | 'strokes' }>
  /** One part of the set-up, then and now; empty where it was not written down. */
  | Statement<'then-now-setup', { readonly of: Between; readonly name: string; readonly was: string; readonly is: string }>
  | Statement<'then-now-column', { readonly of: 'stroke' | 'comes' | 'by' | 'varies'; readonly between: Between; readonly side: 'then' | 'now' | '' }>
  | Statement<'then-now-by', { readonly value: number; readonly low: number; readonly high: number; readonly sure: boolean }>
  | Statement<'then-now-varies', { readonly value: number; readonly low: number; readonly high: number; readonly change: 'steadier' | 'less' | '' }>
  | Statement<'then-now-range', Nothing>
  /** So many strokes are left out of the table. */
  | Statement<'then-now-rest', { readonly count: number }>
  | Statement<'then-now-sound', { readonly cycles: number; readonly as: 'inTurn' | 'oneEarEach' }>
  /** Slowed to a share of the speed it was played at. */
  | Statement<'then-now-slowed', { readonly share: number }>;
