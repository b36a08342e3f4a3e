/** What an exercise is called and why it is there, as codes with parameters; `words` has the sentences. */
import type { Statement } from '../problem.ts';

type Nothing = Record<string, never>;
type Written = {
  /** What is repeated, as text. */
  readonly sticking: string;
};
type OfCell = {
  readonly cell: string;
};
type CellIn = OfCell & Written;
type Parts = OfCell & {
  /** What follows each other, as texts. */
  readonly stickings: readonly string[];
};
type Overload = OfCell & {
  readonly threes: string;
  readonly back: string;
};
type Check = OfCell & {
  readonly check: string;
  readonly doubled: string;
  readonly limb: string;
};
type Model = Written & {
  readonly model: string;
  /** Whether the phrase has strokes of the feet. */
  readonly feet: boolean;
  /** Bars of each. */
  readonly bars: number;
};
type FlatFlams = Written & {
  readonly flat: string;
  readonly flamCount: number;
};
type Together = CellIn & {
  readonly together: string;
};
type OneHand = Written & {
  readonly limb: string;
  readonly alone: string;
  readonly strokeCount: number;
};
type OneHandAround = OnDrums & {
  /** The hand that moves; the other stays on the snare. */
  readonly hand: string;
};
type OtherHand = OfCell & {
  readonly model: string;
};
type Value = Written & {
  readonly perBeat: number;
  readonly wasPerBeat: number;
};
type Moved = Written & {
  readonly moved: string;
  readonly strokeCount: number;
};
type OtherLead = Written & {
  readonly from: string;
  readonly strokeCount: number;
};
type Leaning = OfCell & {
  readonly first: string;
  readonly second: string;
};
type Accent = Written & {
  /** Main stroke from 1, of a diddle the first. */
  readonly place: number;
  readonly limb: string;
  readonly inCell: boolean;
};
type DoubledKick = Written & {
  readonly made: string;
  readonly kickCount: number;
};
type ByLimb = Written & {
  readonly right: string;
  readonly left: string;
};
type AccentsOut = ByLimb & { readonly accentCount: number };
type OnDrums = Written & {
  readonly drums: readonly string[];
};
type RudimentNamed = Written & {
  /** As the Percussive Arts Society lists it. */
  readonly name: string;
  readonly number: number;
  readonly lead: string;
  /** False when the sticking is from memory of the standard list. */
  readonly confirmed: boolean;
};
type FillOf = Written & {
  /** Stroke of the phrase it begins on, from 1. */
  readonly stroke: number;
  /** Slots of its cycles, the last one cut: 6 6 4. */
  readonly lengths: readonly number[];
  readonly landing: string;
};
type ShortFill = Written & {
  readonly stroke: number;
  readonly beats: number;
  readonly landing: string;
};
type MovedThrough = OfCell & {
  readonly perBeat: number;
  /** Slots of the cell's strokes, counted from a beat; negative before it. */
  readonly places: readonly number[];
  /** What goes on meanwhile: cymbal and backbeat, both feet, or one foot in quarters. */
  readonly over: string;
};
type Groove = Written & {
  readonly stroke: number;
  /** The snare hand. */
  readonly hand: string;
  /** Backbeats, from 1. */
  readonly beats: readonly number[];
  readonly lengths: readonly number[];
  /** Backbeats, from 1, on which another stroke (`-` for a rest) was replaced by the snare hand's. */
  readonly replacedOn: readonly number[];
  readonly replaced: readonly string[];
  /** Whether the snare hand has rolls, which cannot be ghosted. */
  readonly rolls: boolean;
  /** Feet that were added, in letters. */
  readonly feet: string;
  /** Where an added hi-hat foot plays: 'backbeat' or 'quarters'. */
  readonly hats: 'backbeat' | 'quarters';
  /** The meter where it is not the phrase's own, or ''. */
  readonly meter: string;
};
type TimeAndPhrase = Written & {
  readonly bars: number;
  readonly stroke: number;
  readonly landing: string;
};

type LongRuns = Written & {
  /** How often the phrase comes in each run. */
  readonly times: readonly number[];
};
type SoftSurface = Written & {
  readonly surface: string;
};
type Varied = Written & {
  /** Whether it begins on another stroke than the phrase. */
  readonly begun: boolean;
  /** Strokes with an accent; 0 where the accents are those of the phrase. */
  readonly accentCount: number;
  /** Drum of each hand, '' where it stays on its own. */
  readonly right: string;
  readonly left: string;
};
type Groups = Written & {
  /** Strokes of each group: 3 3 2. */
  readonly lengths: readonly number[];
};

type Linked = {
  readonly from: string;
  readonly to: string;
  /** Strokes of one limb in a row if one followed the other at once, and whose. */
  readonly joinRun: number;
  readonly joinLimb: string;
  /** The hand that plays the linking note there and back, or '' for a breath alone. */
  readonly link: string;
  readonly linkBack: string;
};
type RudimentReason = RudimentNamed &
  OfCell & {
    /** Strokes of the cell that it holds, and how often in a cycle; 0 when only with the graces counted. */
    readonly word: string;
    readonly times: number;
    /** 'plain', 'graces-between' or 'graces-counted'. */
    readonly hold: string;
    /** The hand given to a foot, and the foot; '' when none is. */
    readonly hand: string;
    readonly foot: string;
  };

/** What an exercise is called. Stickings are always printed; strokes are counted from 1. */
export type ExerciseTitle =
  | Statement<'title-own', { readonly text: string }>
  | Statement<'title-whole', Written>
  | Statement<'title-cell-alone', Written>
  | Statement<'title-cell-space', Written>
  | Statement<'title-cell-beat', Written>
  | Statement<'title-cell-bar', { readonly cell: string; readonly bars: number }>
  | Statement<'title-under-hats', CellIn>
  | Statement<'title-breath', CellIn>
  | Statement<'title-one-at-a-time', Parts>
  | Statement<'title-approach', Parts>
  | Statement<'title-built-up', Parts>
  | Statement<'title-flat-flams', FlatFlams>
  | Statement<'title-together', Together>
  | Statement<'title-one-hand', OneHand>
  | Statement<'title-both-leads', OtherLead>
  | Statement<'title-one-hand-around', OneHandAround>
  | Statement<'title-across-beat', CellIn>
  | Statement<'title-overload', Overload>
  | Statement<'title-check', Check>
  | Statement<'title-second-accented', CellIn>
  | Statement<'title-hand-to-hand', Model>
  | Statement<'title-other-hand', OtherHand>
  | Statement<'title-value', Value>
  | Statement<'title-moved-to-hands', Moved>
  | Statement<'title-other-lead', OtherLead>
  | Statement<'title-leaning', Leaning>
  | Statement<'title-soft-cell', CellIn>
  | Statement<'title-long-runs', LongRuns>
  | Statement<'title-soft-surface', SoftSurface>
  | Statement<'title-crescendo', Written & { readonly bars: number }>
  | Statement<'title-groups', Groups>
  | Statement<'title-varied', Varied>
  | Statement<'title-moving-accent', Written & { readonly strokeCount: number }>
  | Statement<'title-all-soft', Written>
  | Statement<'title-accent', Accent>
  | Statement<'title-accents', Written & { readonly places: readonly number[] }>
  | Statement<'title-doubled-kick', DoubledKick>
  | Statement<'title-over-feet', Written & { readonly feet: string }>
  | Statement<'title-split', OfCell & { readonly first: string; readonly second: string }>
  | Statement<'title-by-limb', ByLimb>
  | Statement<'title-cycle-lower', OnDrums>
  | Statement<'title-around', OnDrums>
  | Statement<'title-crash-on-one', Written>
  | Statement<'title-accents-out', AccentsOut>
  | Statement<'title-drums', OnDrums>
  | Statement<'title-groove', Groove>
  | Statement<'title-moved', MovedThrough & { readonly offsets: readonly number[]; readonly inBar: number }>
  | Statement<'title-moved-one', MovedThrough>
  | Statement<'title-fill-bar', FillOf & { readonly timeBars: number }>
  | Statement<'title-resolved', FillOf>
  | Statement<'title-fill-short', ShortFill>
  | Statement<'title-fill-two-bars', FillOf & { readonly timeBars: number }>
  | Statement<'title-time-and-phrase', TimeAndPhrase>
  | Statement<'title-in-time', OfCell & { readonly beat: number }>
  | Statement<'title-feet-in-time', Written & { readonly stroke: number; readonly kickCount: number }>
  | Statement<'title-rudiment', RudimentNamed>
  | Statement<'title-linked', Linked>
  | Statement<'title-inversion', { readonly sticking: string; readonly stroke: number }>;

/** Where the cell comes to stand in an inversion; 'inside' also when the cell is the whole phrase. */
export type CellPlace = 'first' | 'last' | 'across' | 'inside';

/** Why an exercise is there. */
export type ExerciseReason =
  | Statement<'reason-own', Nothing>
  | Statement<'reason-own-from', { readonly text: string }>
  | Statement<'reason-whole', { readonly cell: string }>
  /** The phrase itself, when the cell is all of it. */
  | Statement<'reason-phrase', Record<string, never>>
  | Statement<'reason-cell-alone', { readonly cell: string; readonly strokeCount: number }>
  | Statement<'reason-cell-space', { readonly cell: string }>
  | Statement<'reason-cell-beat', { readonly cell: string; readonly beats: number }>
  | Statement<'reason-cell-bar', { readonly cell: string; readonly bars: number }>
  | Statement<'reason-under-hats', CellIn>
  | Statement<'reason-breath', CellIn & { readonly restSlots: number; readonly perBeat: number }>
  | Statement<'reason-one-at-a-time', Parts>
  | Statement<'reason-approach', Parts>
  | Statement<'reason-built-up', Parts>
  | Statement<'reason-flat-flams', FlatFlams>
  | Statement<'reason-together', Together>
  | Statement<'reason-one-hand', OneHand>
  | Statement<'reason-both-leads', OtherLead>
  | Statement<'reason-one-hand-around', OneHandAround>
  | Statement<'reason-across-beat', CellIn>
  | Statement<'reason-overload', Overload>
  | Statement<'reason-check', Check>
  | Statement<'reason-second-accented', CellIn>
  | Statement<'reason-hand-to-hand', Model>
  | Statement<'reason-other-hand', OtherHand>
  | Statement<'reason-value', Value>
  | Statement<'reason-moved-to-hands', Moved>
  | Statement<'reason-other-lead', OtherLead>
  | Statement<'reason-leaning', Leaning>
  | Statement<'reason-soft-cell', CellIn>
  | Statement<'reason-long-runs', LongRuns>
  | Statement<'reason-soft-surface', SoftSurface>
  | Statement<'reason-crescendo', Written & { readonly bars: number }>
  | Statement<'reason-groups', Groups>
  | Statement<'reason-varied', Varied>
  | Statement<'reason-moving-accent', Written & { readonly strokeCount: number }>
  | Statement<'reason-all-soft', Written>
  | Statement<'reason-accent', Accent>
  | Statement<'reason-accents', Written & { readonly places: readonly number[] }>
  | Statement<'reason-doubled-kick', DoubledKick>
  | Statement<'reason-over-feet', Written & { readonly feet: string }>
  | Statement<'reason-split', OfCell & { readonly first: string; readonly second: string }>
  | Statement<'reason-by-limb', ByLimb>
  | Statement<'reason-cycle-lower', OnDrums>
  | Statement<'reason-around', OnDrums>
  | Statement<'reason-crash-on-one', Written>
  | Statement<'reason-accents-out', AccentsOut>
  | Statement<'reason-drums', OnDrums & { readonly ways: number }>
  | Statement<'reason-groove', Groove>
  | Statement<'reason-moved', MovedThrough & { readonly offsets: readonly number[]; readonly inBar: number }>
  | Statement<'reason-moved-one', MovedThrough>
  | Statement<'reason-fill-bar', FillOf & { readonly timeBars: number }>
  | Statement<'reason-resolved', FillOf>
  | Statement<'reason-fill-short', ShortFill>
  | Statement<'reason-fill-two-bars', FillOf & { readonly timeBars: number }>
  | Statement<'reason-time-and-phrase', TimeAndPhrase>
  | Statement<'reason-in-time', OfCell & { readonly beat: number }>
  | Statement<'reason-feet-in-time', Written & { readonly stroke: number; readonly kickCount: number }>
  | Statement<'reason-rudiment', RudimentReason>
  | Statement<'reason-linked', Linked>
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
