/** What an exercise is called, as codes with parameters; `words` has the sentences. */
import type { Statement } from '../problem.ts';
import type * as Said from './said.ts';

/** What an exercise is called. Stickings are always printed; strokes are counted from 1. */
export type ExerciseTitle =
  | Statement<'title-own', { readonly text: string }>
  | Statement<'title-whole', Said.Written>
  | Statement<'title-cell-alone', Said.Written>
  | Statement<'title-cell-space', Said.Written>
  | Statement<'title-cell-beat', Said.Written>
  | Statement<'title-cell-bar', { readonly cell: string; readonly bars: number }>
  | Statement<'title-under-hats', Said.CellIn>
  | Statement<'title-breath', Said.CellIn>
  | Statement<'title-one-at-a-time', Said.Parts>
  | Statement<'title-approach', Said.Parts>
  | Statement<'title-built-up', Said.Parts>
  | Statement<'title-flat-flams', Said.FlatFlams>
  | Statement<'title-together', Said.Together>
  | Statement<'title-one-hand', Said.OneHand>
  | Statement<'title-both-leads', Said.OtherLead>
  | Statement<'title-one-hand-around', Said.OneHandAround>
  | Statement<'title-across-beat', Said.CellIn>
  | Statement<'title-overload', Said.Overload>
  | Statement<'title-check', Said.Check>
  | Statement<'title-second-accented', Said.CellIn>
  | Statement<'title-hand-to-hand', Said.Model>
  | Statement<'title-other-hand', Said.OtherHand>
  | Statement<'title-value', Said.Value>
  | Statement<'title-moved-to-hands', Said.Moved>
  | Statement<'title-other-lead', Said.OtherLead>
  | Statement<'title-leaning', Said.Leaning>
  | Statement<'title-soft-cell', Said.CellIn>
  | Statement<'title-long-runs', Said.LongRuns>
  | Statement<'title-soft-surface', Said.SoftSurface>
  | Statement<'title-crescendo', Said.Written & { readonly bars: number }>
  | Statement<'title-groups', Said.Groups>
  | Statement<'title-varied', Said.Varied>
  | Statement<'title-moving-accent', Said.Written & { readonly strokeCount: number }>
  | Statement<'title-all-soft', Said.Written>
  | Statement<'title-accent', Said.Accent>
  | Statement<'title-accents', Said.Written & { readonly places: readonly number[] }>
  | Statement<'title-doubled-kick', Said.DoubledKick>
  | Statement<'title-over-feet', Said.Written & { readonly feet: string }>
  | Statement<'title-split', Said.OfCell & { readonly first: string; readonly second: string }>
  | Statement<'title-by-limb', Said.ByLimb>
  | Statement<'title-cycle-lower', Said.OnDrums>
  | Statement<'title-around', Said.OnDrums>
  | Statement<'title-crash-on-one', Said.Written>
  | Statement<'title-accents-out', Said.AccentsOut>
  | Statement<'title-drums', Said.OnDrums>
  | Statement<'title-groove', Said.Groove>
  | Statement<'title-moved', Said.MovedThrough & { readonly offsets: readonly number[]; readonly inBar: number }>
  | Statement<'title-moved-one', Said.MovedThrough>
  | Statement<'title-fill-bar', Said.FillOf & { readonly timeBars: number }>
  | Statement<'title-resolved', Said.FillOf>
  | Statement<'title-fill-short', Said.ShortFill>
  | Statement<'title-fill-two-bars', Said.FillOf & { readonly timeBars: number }>
  | Statement<'title-time-and-phrase', Said.TimeAndPhrase>
  | Statement<'title-in-piece', Said.InPiece>
  | Statement<'title-free', Said.Free>
  | Statement<'title-in-time', Said.OfCell & { readonly beat: number }>
  | Statement<'title-feet-in-time', Said.Written & { readonly stroke: number; readonly kickCount: number }>
  | Statement<'title-rudiment', Said.RudimentNamed>
  | Statement<'title-linked', Said.Linked>
  | Statement<'title-inversion', { readonly sticking: string; readonly stroke: number }>;
