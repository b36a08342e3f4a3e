/** What can go wrong when a device is asked to keep a diary. */
import type { Problem } from '../problem.ts';

/** Problems of the place where records and takes are kept; apps meet them, words say them. */
export type KeepingProblem =
  | Problem<'store-unavailable', Record<string, never>>
  | Problem<'store-full', Record<string, never>>
  | Problem<'store-newer', Record<string, never>>
  | Problem<'store-blocked', Record<string, never>>
  | Problem<'store-closed', Record<string, never>>
  | Problem<'store-failed', { readonly reason: string }>
  /** Doubtful: all is well again. `isAll`: the browser had lost everything that it kept, sound too; else only some entries. */
  | Problem<'store-brought-back', { readonly recordCount: number; readonly isAll: boolean }>
  | Problem<'take-not-stored', { readonly takeId: string }>
  | Problem<'take-cut-off', { readonly durationSec: number }>;
