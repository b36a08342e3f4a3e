/** What a session says, as codes: what a block aims at, and what there is to say when nothing could be measured or something hurt. */
import type { Statement } from '../problem.ts';

export type SessionStatement =
  | Statement<'aim-as-wanted', { readonly tempoBpm: number; readonly perBeat: number }>
  | Statement<'block-not-heard', Record<string, never>>
  /** Too few cycles to tell one stroke from another. */
  | Statement<'block-too-short', Record<string, never>>
  /** What was played is not what is written. */
  | Statement<'block-of-else', Record<string, never>>
  /** Rounds by the player's own word. */
  | Statement<'block-by-word', { readonly hadIt: number; readonly again: number }>
  /** "Keep that": the last bars of a take. */
  | Statement<'idea-kept', { readonly tempoBpm: number; readonly perBeat: number; readonly sticking: string }>
  /** The first round at its tempo in which all was clean. */
  | Statement<'first-clean-kept', { readonly tempoBpm: number; readonly perBeat: number; readonly sticking: string }>
  | Statement<'block-without-word', Record<string, never>>
  | Statement<'session-hurt', Record<string, never>>;
