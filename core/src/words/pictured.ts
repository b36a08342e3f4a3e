/** What pictures say: titles, descriptions for those who do not see them, axes and notes. They stand here because `picture` comes after `words`. */
import type { Statement } from '../problem.ts';
import type { Between } from './compared.ts';

type Nothing = Record<string, never>;

export type PictureStatement =
  | Statement<'picture-ring-title', { readonly sticking: string; readonly tempoBpm: number; readonly perBeat: number }>
  | Statement<'picture-ring-desc', { readonly strokeCount: number; readonly cycleCount: number; readonly feet: boolean; readonly graces: boolean }>
  /** `times` says how many times the shifts are drawn. */
  | Statement<'picture-ring-note', { readonly times: number }>
  | Statement<'picture-ring-marks', { readonly missed: boolean; readonly notAudible: boolean }>
  | Statement<'picture-cycles-title', { readonly tempoBpm: number; readonly perBeat: number }>
  | Statement<'picture-cycles-desc', { readonly placeCount: number; readonly cycleCount: number }>
  | Statement<'picture-cycles-across', Nothing>
  | Statement<'picture-cycles-up', Nothing>
  | Statement<'picture-tempo-title', Nothing>
  | Statement<'picture-tempo-desc', { readonly pointCount: number; readonly unknownCount: number }>
  | Statement<'picture-tempo-up', { readonly perBeat: number }>
  | Statement<'picture-tempo-wanted', { readonly goalBpm: number }>
  | Statement<'picture-tempo-none', Nothing>
  | Statement<'picture-cell-title' | 'picture-cell-up' | 'picture-cell-even', { readonly of: 'space' | 'volume' }>
  | Statement<'picture-cell-desc', { readonly of: 'space' | 'volume'; readonly weekCount: number; readonly unknownCount: number }>
  | Statement<'picture-cell-none', Nothing>
  | Statement<'picture-then-now-title', { readonly sticking: string; readonly tempoBpm: number; readonly perBeat: number }>
  | Statement<'picture-then-now-desc', { readonly thenDay: string; readonly nowDay: string }>
  | Statement<'picture-then', { readonly of: Between; readonly day: string }>
  | Statement<'picture-now', { readonly of: Between; readonly day: string }>
  | Statement<'picture-whole-title', { readonly from: string; readonly to: string }>
  | Statement<'picture-whole-desc', { readonly phrases: number; readonly away: number; readonly changes: number; readonly lessons: number }>
  /** How a phrase stands; `known` says whether its clean tempo is, `day` when it was closed or put aside. */
  | Statement<
      'picture-lane',
      {
        readonly firstBpm: number;
        readonly lastBpm: number;
        readonly wantedBpm: number;
        readonly perBeat: number;
        readonly known: boolean;
        readonly is: 'open' | 'paused' | 'closed';
        readonly day: string;
      }
    >
  /** What marks mean that are there; `more` have no number. */
  | Statement<
      'picture-whole-key',
      {
        readonly away: boolean;
        readonly setup: boolean;
        readonly lesson: boolean;
        readonly stood: boolean;
        readonly jump: boolean;
        readonly lines: boolean;
        readonly more: number;
      }
    >
  | Statement<
      'picture-whole-stood',
      { readonly name: string; readonly perBeat: number; readonly from: string; readonly to: string; readonly bpm: number }
    >
  | Statement<
      'picture-whole-jump',
      {
        readonly name: string;
        readonly perBeat: number;
        readonly from: string;
        readonly to: string;
        readonly beforeBpm: number;
        readonly afterBpm: number;
      }
    >
  | Statement<'picture-whole-setup', { readonly day: string; readonly names: readonly string[]; readonly values: readonly string[] }>
  | Statement<'picture-whole-lesson', { readonly day: string; readonly text: string }>
  | Statement<'picture-month', { readonly day: string }>
  | Statement<'picture-day', { readonly day: string; readonly withYear: boolean }>;
