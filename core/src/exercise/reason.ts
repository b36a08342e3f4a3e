/** Why an exercise is there, as codes with parameters; `words` has the sentences. */
import type { Statement } from '../problem.ts';
import type * as Said from './said.ts';

/** Where the cell comes to stand in an inversion; 'inside' also when the cell is the whole phrase. */
export type CellPlace = 'first' | 'last' | 'across' | 'inside';

/** Why an exercise is there. */
export type ExerciseReason =
  | Statement<'reason-own', Said.Nothing>
  | Statement<'reason-own-from', { readonly text: string }>
  | Statement<'reason-whole', { readonly cell: string }>
  /** The phrase itself, when the cell is all of it. */
  | Statement<'reason-phrase', Record<string, never>>
  | Statement<'reason-cell-alone', { readonly cell: string; readonly strokeCount: number }>
  | Statement<'reason-cell-space', { readonly cell: string }>
  | Statement<'reason-cell-beat', { readonly cell: string; readonly beats: number }>
  | Statement<'reason-cell-bar', { readonly cell: string; readonly bars: number }>
  | Statement<'reason-under-hats', Said.CellIn>
  | Statement<'reason-breath', Said.CellIn & { readonly restSlots: number; readonly perBeat: number }>
  | Statement<'reason-one-at-a-time', Said.Parts>
  | Statement<'reason-approach', Said.Parts>
  | Statement<'reason-built-up', Said.Parts>
  | Statement<'reason-flat-flams', Said.FlatFlams>
  | Statement<'reason-together', Said.Together>
  | Statement<'reason-one-hand', Said.OneHand>
  | Statement<'reason-both-leads', Said.OtherLead>
  | Statement<'reason-one-hand-around', Said.OneHandAround>
  | Statement<'reason-across-beat', Said.CellIn>
  | Statement<'reason-overload', Said.Overload>
  | Statement<'reason-check', Said.Check>
  | Statement<'reason-second-accented', Said.CellIn>
  | Statement<'reason-hand-to-hand', Said.Model>
  | Statement<'reason-other-hand', Said.OtherHand>
  | Statement<'reason-value', Said.Value>
  | Statement<'reason-moved-to-hands', Said.Moved>
  | Statement<'reason-other-lead', Said.OtherLead>
  | Statement<'reason-leaning', Said.Leaning>
  | Statement<'reason-soft-cell', Said.CellIn>
  | Statement<'reason-long-runs', Said.LongRuns>
  | Statement<'reason-soft-surface', Said.SoftSurface>
  | Statement<'reason-crescendo', Said.Written & { readonly bars: number }>
  | Statement<'reason-groups', Said.Groups>
  | Statement<'reason-varied', Said.Varied>
  | Statement<'reason-moving-accent', Said.Written & { readonly strokeCount: number }>
  | Statement<'reason-all-soft', Said.Written>
  | Statement<'reason-accent', Said.Accent>
  | Statement<'reason-accents', Said.Written & { readonly places: readonly number[] }>
  | Statement<'reason-doubled-kick', Said.DoubledKick>
  | Statement<'reason-over-feet', Said.Written & { readonly feet: string }>
  | Statement<'reason-split', Said.OfCell & { readonly first: string; readonly second: string }>
  | Statement<'reason-by-limb', Said.ByLimb>
  | Statement<'reason-cycle-lower', Said.OnDrums>
  | Statement<'reason-around', Said.OnDrums>
  | Statement<'reason-crash-on-one', Said.Written>
  | Statement<'reason-accents-out', Said.AccentsOut>
  | Statement<'reason-drums', Said.OnDrums & { readonly ways: number }>
  | Statement<'reason-groove', Said.Groove>
  | Statement<'reason-moved', Said.MovedThrough & { readonly offsets: readonly number[]; readonly inBar: number }>
  | Statement<'reason-moved-one', Said.MovedThrough>
  | Statement<'reason-fill-bar', Said.FillOf & { readonly timeBars: number }>
  | Statement<'reason-resolved', Said.FillOf>
  | Statement<'reason-fill-short', Said.ShortFill>
  | Statement<'reason-fill-two-bars', Said.FillOf & { readonly timeBars: number }>
  | Statement<'reason-time-and-phrase', Said.TimeAndPhrase>
  | Statement<'reason-in-piece', Said.InPiece>
  | Statement<'reason-free', Said.Free>
  | Statement<'reason-in-time', Said.OfCell & { readonly beat: number }>
  | Statement<'reason-feet-in-time', Said.Written & { readonly stroke: number; readonly kickCount: number }>
  | Statement<'reason-rudiment', Said.RudimentReason>
  | Statement<'reason-linked', Said.Linked>
  | Statement<
      'reason-inversion',
      {
        readonly cell: string;
        readonly place: CellPlace;
        readonly perBeat: number;
        /** Places in the beat where the cell begins, in slots from the beat, ascending: here, and in the sticking as it was given. */
        readonly beginsOn: readonly number[];
        readonly beganOn: readonly number[];
        /** The sticking as it was given, which the player may come from. */
        readonly from: string;
        /** Strokes of one limb in a row where the given sticking runs into this one, or 0 when the join makes no longer run than is in it anyway. */
        readonly joinRun: number;
        /** The limb of that run, or ''. */
        readonly joinLimb: string;
      }
    >;
