/** What a page for a student says around a finding; it stands here because reports are made by the apps, after `words`. */
import type { TimeWord, VolumeWord } from '../finding/index.ts';
import type { Statement } from '../problem.ts';

type Nothing = Record<string, never>;

export type ReportStatement =
  | Statement<'report-title', { readonly sticking: string; readonly tempoBpm: number; readonly perBeat: number }>
  | Statement<'report-made', { readonly day: string; readonly cycleCount: number }>
  | Statement<'report-foot', { readonly day: string }>
  | Statement<'report-nothing', Nothing>
  | Statement<'report-heading', { readonly of: 'strokes' | 'try' | 'care' }>
  /** Heads of the table: stroke, limb, drum, comes, varies, volume. */
  | Statement<'report-column', { readonly of: 'stroke' | 'drum' | 'comes' | 'varies' | 'volume' }>
  | Statement<'report-comes', { readonly word: TimeWord; readonly biasMs: number; readonly lowMs: number; readonly highMs: number }>
  | Statement<'report-cannot-tell', Nothing>
  | Statement<'report-varies', { readonly spreadMs: number }>
  /** Against those of its drum that are written as loud. */
  | Statement<'report-volume', { readonly word: VolumeWord; readonly volumeDb: number }>
  | Statement<'report-missed', { readonly missed: number; readonly notAudible: number }>
  | Statement<'report-try', { readonly title: string; readonly tempoBpm: number; readonly perBeat: number }>
  | Statement<'report-try-nothing', Nothing>
  | Statement<'report-care', { readonly of: 'hearing' | 'warm' | 'stop' | 'clinician' }>;
