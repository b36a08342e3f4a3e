/** Numbers that decide how the drummer of the demo plays and learns. */
import type { Style } from '@evenhand/core/player';

/** A working drummer: steadier than the middle one of `player`'s styles, so that what fails is the double and not everything. Assumption. */
export const STYLE: Style = { clockSdMs: 2.2, motorSdMs: 2.8, correction: 0.25, levelSdDb: 1, wanderShare: 0 };

/** How early and how soft the second stroke of a foot's double comes on the first day, sixteenths at 92. Assumption: a fault that is clearly heard. */
export const EARLY_MS = 28;
export const SOFT_DB = 4.5;
/** Space of those sixteenths, ms: 60000 / (92 · 4). */
export const REFERENCE_SPACE_MS = 163;
/** How steeply both grow as the space gets smaller: a power of the ratio. Assumption: a third less tempo and more than half is gone. */
export const STEEPNESS = 2.5;
/** What is left of both after each session. Assumption: slow, four tenths gone in ten sessions. */
export const LEFT_PER_SESSION = 0.95;

/** Strokes of a block that are played for its figures: as many cycles as hold them. Fewer than minutes of playing have, to keep the demo quick. */
export const STROKES_PER_BLOCK = 96;

/** Cycles of a take whose sound is made, its rate and its edges: enough to compare two of them, and no more, for making sound takes most of the time. */
export const TAKE = { cycles: 10, sampleRateHz: 32000, startSec: 0.6, tailSec: 0.7 } as const;

/** Two strokes nearer than this are one to an ear. Assumption. */
export const TOGETHER_SEC = 0.012;

/** Share of clean runs from which she says that she had it. Assumption. */
export const HAD_IT_SHARE = 0.8;

/** Rounds of a block that she gives her word on. Assumption: four bars on, four off, about three minutes. */
export const ROUNDS_PER_BLOCK = 5;

/** Cycles of a long exercise that are played at least: below, no finding is told. */
export const FEWEST_CYCLES = 8;
