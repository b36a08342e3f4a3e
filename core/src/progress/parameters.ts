/** Numbers that decide what progress claims. */

/** Days without a session that go without a word. @source [JobBrief] issue 7: the player's own, three unless said. */
export const DAYS_AWAY_ALLOWED = 3;

/** Relative standard error of 1.4826·MAD of n normal values is this over √n: its efficiency is 37 %. @source [RousseeuwCroux1993] √(1/(2·.37)) */
export const SPREAD_ERROR = 1.1625;

/** Half of a 95 % interval in standard errors. @source Φ⁻¹(.975) */
export const HALF_95 = 1.959964;

/** Fewest strokes of a place from which a spread or a volume is told. Assumption: below, the interval is wider than any change. */
export const FEWEST_STROKES = 6;

/** Takes of so many days, today among them, keep their sound whatever the rules. Assumption: a week's takes are still talked about. */
export const LATEST_DAYS = 7;

/** Bytes of a megabyte as rules and screens count them. @source SI: mega is a million. */
export const MB = 1_000_000;

/** What rules may say: months up to ten years, megabytes up to what a backup holds. */
export const THINNING_RANGES = { months: { least: 1, most: 120 }, mostMb: { least: 1, most: 4000 } } as const;

/** A shift of one stroke is heard from here on, ms. @source [Friberg1995] */
export const HEARD_MS = 6;

/** Cycles of the first and of the last seconds of a take that are held against each other, at least, and the share of the take that each is. Assumption: six give a median an interval. */
export const FIRST_LAST = { fewestCycles: 6, share: 1 / 3 } as const;

/** A reference take at a tempo this far off is another tempo. @source [Drake1993] the smallest difference anybody notices. */
export const SAME_TEMPO_SHARE = 0.015;

/** Fewest runs at the tempo wanted that make a day count. Assumption: as many as a clean tempo is told from. */
export const DAY_RUNS = 8;

/** Days on which each family must be clean. @source [JobBrief] issue 7: on two days. */
export const DAYS_CLEAN = 2;

/** Days until the check. @source [JobBrief] "again weeks later"; three weeks are our choice. */
export const CHECK_AFTER_DAYS = 21;

/** Figures that are compared of each place: when, how steadily, how loud. */
export const FIGURES_PER_PLACE = 3;

/** About how long each stretch of then and now is, seconds. Assumption: long enough to get into it, short enough to be remembered. */
export const STRETCH_SEC = 5;

/** So much is heard before the first stroke of a part, for it may come early. Assumption: twice as early as a drummer plays. */
export const LEAD_SEC = 0.05;

/** Fade at a cut, seconds: too short to be noticed, long enough not to click. Assumption. */
export const FADE_SEC = 0.005;

/** How often then and now are heard in turn. Our choice: the second time one knows what to listen for. */
export const TURNS = 2;

/** True peaks stay this far under full scale, dB. @source [EBU3341] as R 128 asks of programmes: −1 dBTP. */
export const CEILING_DB = -1;

/** Where only the latest days of a curve are asked for, results older than this are left out. @tuned bench/diary: the clean tempo moves by less than a beat a minute. */
export const REMEMBERED_DAYS = 365;

/** Clean tempi that a course is looked for among, log tempo: a step finer than anybody notices, as far beyond what was played. Assumption. */
export const COURSE_GRID = { step: 0.01, reach: 0.35 } as const;

/** Forms that are tried: how gradually runs fail, then how much days stray, log tempo; begun in the middle. Assumption: the range of core/src/tempo's slopes and nights. */
export const COURSE_FORMS = { slopes: [0.03, 0.055, 0.1], nightSds: [0.012, 0.025, 0.05], first: { slope: 0.055, nightSd: 0.025 } } as const;

/** Rises over a whole course that are looked at, log tempo, and how soon they flatten. Assumption: from nearly halved to more than doubled. */
export const SMOOTH = { least: -0.6, most: 0.9, step: 0.03, bends: [0, 2, 5, 12] } as const;
/** The few of them by which forms are told apart. */
export const FEW_SMOOTH = { least: -0.3, most: 0.9, step: 0.1, bends: [0, 5] } as const;

/** Fewest days with results on either side of a step, and of any course of which something is said. Assumption: one bad day is one bad day. */
export const FEWEST_SIDE_DAYS = 4;
export const FEWEST_COURSE_DAYS = 8;

/** So many of the latest days with results are looked at: those that the plot shows. Assumption. */
export const COURSE_DAYS = 60;

/** How much better by Schwarz's measure a step, or a rise, must tell the days before it is named. @tuned bench/progress: in at most 5 of 100 players without one. */
export const COURSE_SURE = { step: 6, rise: 4, stood: 4 } as const;

/**
 * Fewest days with results of a course that stands still for a while; how much it may lose and gain a week meanwhile, when it rises
 * later (@tuned bench/progress: who rises by 1 % a week and then by 3 % is not told to have stood); and how much it moves a day before and after, log
 * tempo. Assumption: from the least that is told of months to a jump in three days.
 */
export const STOOD = {
  fewestDays: 6,
  lostPerWeek: 0.03,
  gainedPerWeek: 0.006,
  slopes: [-0.02, -0.014, -0.01, -0.007, -0.005, -0.003, -0.0015, 0.0015, 0.003, 0.005, 0.007, 0.01, 0.014, 0.02, 0.028],
} as const;

/** Smallest step that is named. @source [Drake1993] 3 % is noticed by most. */
export const LEAST_STEP = 0.03;

/**
 * A tempo is held over at least so many days of the calendar, so many of them with results that tell, when the 90 % range of its change stays within
 * so much a week, log tempo. @tuned bench/progress: of players who rise by 2 % a week, at most 5 in 100 are told so.
 */
export const HELD = { days: 21, resultDays: 6, perWeek: 0.015 } as const;

/** Changes a week that are looked at, log tempo. Assumption. */
export const HELD_GRID = { most: 0.08, step: 0.004 } as const;

/** Half of what twice the log likelihood falls within a 90 % range. @source χ² with one degree of freedom, .90 quantile 2.7055 */
export const HALF_90_FALL = 1.35277;

/** A week whose 90 % range is wider than this from end to end is not held against another. Assumption: half of what makes a clean tempo too little to tell. */
export const WEEK_WIDEST = 1.15;

/** Steps from week to week from which something is said of rising together, the most days between two weeks of one step, and how rarely chance alone may say it. Assumptions; 5 % as is usual. */
export const FEWEST_STEPS = 6;
export const MOST_STEP_DAYS = 21;
export const RISEN_SURE = 0.05;

/** A change of set-up so many days before a jump still stands beside it. Assumption: a week of getting used to it. */
export const BESIDE_DAYS = 7;

/** Fewest blocks of a week from which a mean with a range is told. Assumption: below, the range is wider than any change. */
export const FEWEST_BLOCKS = 3;

/** Half of a 95 % range of a mean in standard errors, by degrees of freedom from 1; beyond, the last. @source [Student1908] t of .975 */
export const STUDENT_95 = [
  ...[12.7062, 4.3027, 3.1824, 2.7764, 2.5706, 2.4469, 2.3646, 2.306, 2.2622, 2.2281, 2.201, 2.1788, 2.1604, 2.1448, 2.1314],
  ...[2.1199, 2.1098, 2.1009, 2.093, 2.086, 2.0796, 2.0739, 2.0687, 2.0639, 2.0595, 2.0555, 2.0518, 2.0484, 2.0452, 2.0423],
] as const;

/** Weeks that are looked at for what rose with what, the latest. Assumption: a year. */
export const RISEN_WEEKS = 52;

/** Lines that stand beside days away: of so many days before them, at most so many of each kind, the nearest. Assumption: what is written earlier is of something else. */
export const AWAY_LINES = { daysBefore: 3, most: 2 } as const;

/** Days of a phrase whose clean tempo a lane of the whole diary shows, and of all lanes together. Assumption: a line at a glance; each day takes a millisecond or two. */
export const LANE_DAYS = { least: 2, most: 16, all: 60 } as const;
