/** What exercises are told with, in title and reason alike: the parameters of their statements. */

export type Nothing = Record<string, never>;
export type Written = {
  /** What is repeated, as text. */
  readonly sticking: string;
};
export type OfCell = {
  readonly cell: string;
};
export type CellIn = OfCell & Written;
export type Parts = OfCell & {
  /** What follows each other, as texts. */
  readonly stickings: readonly string[];
};
export type Overload = OfCell & {
  readonly threes: string;
  readonly back: string;
};
export type Check = OfCell & {
  readonly check: string;
  readonly doubled: string;
  readonly limb: string;
};
export type Model = Written & {
  readonly model: string;
  /** Whether the phrase has strokes of the feet. */
  readonly feet: boolean;
  /** Bars of each. */
  readonly bars: number;
};
export type FlatFlams = Written & {
  readonly flat: string;
  readonly flamCount: number;
};
export type Together = CellIn & {
  readonly together: string;
};
export type OneHand = Written & {
  readonly limb: string;
  readonly alone: string;
  readonly strokeCount: number;
};
export type OneHandAround = OnDrums & {
  /** The hand that moves; the other stays on the snare. */
  readonly hand: string;
};
export type OtherHand = OfCell & {
  readonly model: string;
};
export type Value = Written & {
  readonly perBeat: number;
  readonly wasPerBeat: number;
};
export type Moved = Written & {
  readonly moved: string;
  readonly strokeCount: number;
};
export type OtherLead = Written & {
  readonly from: string;
  readonly strokeCount: number;
};
export type Leaning = OfCell & {
  readonly first: string;
  readonly second: string;
};
export type Accent = Written & {
  /** Main stroke from 1, of a diddle the first. */
  readonly place: number;
  readonly limb: string;
  readonly inCell: boolean;
};
export type DoubledKick = Written & {
  readonly made: string;
  readonly kickCount: number;
};
export type ByLimb = Written & {
  readonly right: string;
  readonly left: string;
};
export type AccentsOut = ByLimb & { readonly accentCount: number };
export type OnDrums = Written & {
  readonly drums: readonly string[];
};
export type RudimentNamed = Written & {
  /** As the Percussive Arts Society lists it. */
  readonly name: string;
  readonly number: number;
  readonly lead: string;
  /** False when the sticking is from memory of the standard list. */
  readonly confirmed: boolean;
};
export type FillOf = Written & {
  /** Stroke of the phrase it begins on, from 1. */
  readonly stroke: number;
  /** Slots of its cycles, the last one cut: 6 6 4. */
  readonly lengths: readonly number[];
  readonly landing: string;
};
export type ShortFill = Written & {
  readonly stroke: number;
  readonly beats: number;
  readonly landing: string;
};
export type MovedThrough = OfCell & {
  readonly perBeat: number;
  /** Slots of the cell's strokes, counted from a beat; negative before it. */
  readonly places: readonly number[];
  /** What goes on meanwhile: cymbal and backbeat, both feet, or one foot in quarters. */
  readonly over: string;
};
export type Groove = Written & {
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
export type TimeAndPhrase = Written & {
  readonly bars: number;
  readonly stroke: number;
  readonly landing: string;
};

export type LongRuns = Written & {
  /** How often the phrase comes in each run. */
  readonly times: readonly number[];
};
export type SoftSurface = Written & {
  readonly surface: string;
};
export type Varied = Written & {
  /** Whether it begins on another stroke than the phrase. */
  readonly begun: boolean;
  /** Strokes with an accent; 0 where the accents are those of the phrase. */
  readonly accentCount: number;
  /** Drum of each hand, '' where it stays on its own. */
  readonly right: string;
  readonly left: string;
};
export type Groups = Written & {
  /** Strokes of each group: 3 3 2. */
  readonly lengths: readonly number[];
};

export type Linked = {
  readonly from: string;
  readonly to: string;
  /** Strokes of one limb in a row if one followed the other at once, and whose. */
  readonly joinRun: number;
  readonly joinLimb: string;
  /** The hand that plays the linking note there and back, or '' for a breath alone. */
  readonly link: string;
  readonly linkBack: string;
};
export type RudimentReason = RudimentNamed &
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

export type InPiece = Written & {
  /** As the player wrote it; the place may be ''. */
  readonly title: string;
  readonly place: string;
  readonly tempoBpm: number;
  /** Whether a recording of it is played over. */
  readonly recorded: boolean;
  /** Bars of time, then of the phrase. */
  readonly timeBars: number;
  readonly bars: number;
  readonly landing: string;
};
export type Free = OfCell & {
  /** Bars of time, and as many free ones. */
  readonly bars: number;
};
