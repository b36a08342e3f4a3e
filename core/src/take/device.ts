/** What can go wrong between a drum and a recording: microphones, permission, the sound system of the device. */
import type { Problem } from '../problem.ts';

/** Problems of the device that listens and clicks; apps meet them, words say them. */
export type DeviceProblem =
  | Problem<'device-not-secure', Record<string, never>>
  | Problem<'device-no-audio', Record<string, never>>
  | Problem<'device-audio-waiting', Record<string, never>>
  | Problem<'device-audio-interrupted', Record<string, never>>
  | Problem<'microphone-denied', Record<string, never>>
  | Problem<'microphone-none', Record<string, never>>
  | Problem<'microphone-busy', Record<string, never>>
  | Problem<'microphone-lost', Record<string, never>>
  | Problem<'microphone-processed', { readonly processing: readonly string[] }>
  | Problem<'click-not-heard', Record<string, never>>
  | Problem<'click-unsteady', { readonly spreadMs: number }>
  | Problem<'ear-stopped', Record<string, never>>
  | Problem<'ear-failed', { readonly reason: string }>;
