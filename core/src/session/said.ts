/** What a session says, as codes: why a block is there, what it aims at, and what was heard when nothing could be measured. */
import type { Statement } from '../problem.ts';

export type SessionStatement =
  | Statement<'aim-as-wanted', { readonly tempoBpm: number; readonly perBeat: number }>
  | Statement<'block-chosen', Record<string, never>>
  | Statement<'block-repeats', Record<string, never>>
  | Statement<'block-not-heard', Record<string, never>>
  | Statement<'block-without-microphone', Record<string, never>>
  | Statement<'block-too-short', { readonly strokeCount: number }>
  | Statement<'tempo-stays', { readonly tempoBpm: number }>
  | Statement<'session-hurt', Record<string, never>>;
