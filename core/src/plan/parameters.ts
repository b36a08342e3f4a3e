/** Numbers that decide how practice is planned. */
import type { Family } from '../exercise/index.ts';

/** Shortest and longest session that is planned. Assumption: under three minutes no block is left, beyond an hour hands and ears need a break. */
export const MINUTES_RANGE = { least: 3, most: 60 } as const;

/** Longest plan: a year. Assumption: beyond, nothing that is planned today will still fit. */
export const WEEKS_MOST = 53;

/** Every length is a whole number of quarter minutes, which floating-point numbers add up exactly. Our choice. */
export const QUARTERS_PER_MINUTE = 4;

/** Share of a session for the warm-up and for the phrase at its end. @source [JobBrief] of a usual twelve minutes two are warm-up and one is use. */
export const WARM_UP_SHARE = 1 / 6;
export const USE_SHARE = 1 / 12;

/** Warm-up and end of a session, in quarter minutes: at least half a minute, at most five. Assumption. */
export const EDGE_QUARTERS = { least: 2, most: 20 } as const;

/** Length aimed at for a block of work, in quarter minutes. @source [CarterGrahn2016] interleaved blocks of three minutes. */
export const WORK_QUARTERS = 12;

/** Length of one reference take, in quarter minutes; two of them are the ninety seconds a week allows. @source [JobBrief] */
export const REFERENCE_QUARTERS = 3;

/** From so many quarter minutes on, both reference takes fit; before, only the one at the tempo wanted. Our choice: the week's takes get under a fifth. */
export const BOTH_REFERENCES_FROM = 32;

/** Tempi of the reference takes as shares of the tempo wanted. Our choice: one that will soon hold, and the one that is meant. */
export const REFERENCE_SHARES = [0.7, 1] as const;

/** Different exercises in as many sessions as a week has, the phrase included. @source [JobBrief] players 4 to 5, pupils 2 to 3. */
export const VARIETY_LIMIT = { player: 5, pupil: 3 } as const;

/** New exercises a week. Our choice: with the phrase and what is kept, they fill the variety limit. */
export const NEW_PER_WEEK = { player: 2, pupil: 1 } as const;

/** Sessions in which an exercise is still new: no other begins, and it comes first. In the very first its blocks come in a row. Our choice: mixing starts as soon as there is something to mix [CarterGrahn2016]. */
export const FIRST_LEARNING_SESSIONS = 2;

/**
 * Weeks after which an exercise rests, to make room. Our choice: two begin a week and four fit beside the phrase, so each has two weeks,
 * the second of them for not being among the week's exercises any more.
 */
export const STRETCH_WEEKS = 1;

/** Weeks for which a learnt exercise rests before it comes back, the first time, the second …; then always the last. Our choice: growing distances cost few minutes, and do no worse than equal ones [Latimier2021]. */
export const REST_WEEKS = [1, 2, 4, 8] as const;

/** Different exercises in one session besides warm-up and end. Our choice: three turns of three minutes. */
export const DIFFERENT_PER_SESSION = 3;

/** Order in which families open. Our choice: one thing at a time, from the strokes alone to music. */
export const FAMILY_ORDER: readonly Family[] = ['pad', 'rudiment', 'dynamics', 'inversion', 'kit', 'groove', 'fill', 'use'];

/** Families open from the start. Our choice: two, so that there is something to alternate. */
export const FIRST_OPEN = 2;

/** Before there are results, all families are planned to be open in the last so many weeks. Our choice: time for music at the end. */
export const LAST_WEEKS_ALL_OPEN = 2;

/** A family holds when an exercise of it, on so many days, came to this share of the tempo wanted. Our choice; the next one opens then. */
export const HELD = { days: 2, tempoShare: 0.9 } as const;

/** Days for which an exercise rests that is too hard now, since it was played last. Assumption: as long as four weeks of easier ones. */
export const TOO_HARD_REST_DAYS = 28;

/** Where work begins when nothing is known of the phrase, as a share of the tempo at which it will not hold. Assumption. */
export const FIRST_TEMPO_SHARE = 0.75;

/** An exercise tells what came over to it once it was played on so many days: before, its tempo is where it was begun. Our choice. */
export const KNOWN_DAYS = 3;

/** Tempo of the warm-up as a share of the phrase's. Our choice: slow enough to be easy. */
export const WARM_UP_TEMPO_SHARE = 0.6;

/** Slots per second at which a phrase is assumed to be wanted when nobody says: sixteenths at 90. Assumption. */
export const WANTED_SLOTS_PER_SEC = 6;

/** Slowest tempo that is planned. Assumption: below, beats no longer feel like a pulse. */
export const SLOWEST_BPM = 20;

/** Stickings are near-twins when at most this share of their letters differs. Assumption; why twins stay apart: [Allen2013]. */
export const TWIN_SHARE = 1 / 8;

/** Steps of the turns of a day that go two up and one back, and their size. @source [Drake1993] 3 % is what a player notices; the order is common practice, no source. */
export const UP_AND_BACK = { stepShare: 0.03, steps: [1, 2, 1] } as const;

/** Days with results without getting faster, after which one turn of the phrase is played in bursts at the tempo wanted. Our choice. */
export const STUCK_DAYS = 4;

/** Shortest block of the player's own music, minutes. Assumption: half a minute, as for every edge of a session. */
export const LEAST_OWN_MINUTES = 0.5;

/** A slow day: this share of the tempo, all the minutes. Our choice. */
export const SLOW_DAY_SHARE = 0.8;

/** The first session after days away: from so many days on, this share of the tempo. Assumption; results bring it back within the session. */
export const BACK_AFTER = [
  { days: 14, tempoShare: 0.9 },
  { days: 7, tempoShare: 0.95 },
] as const;

/**
 * After a session that was stopped because something hurt: these shares of the tempo on the first days of practice after it, and no rise within
 * them. Assumption, after the usual caution to raise load gradually and never to chase tempo through pain.
 */
export const BACK_AFTER_HURT = [0.8, 0.85, 0.9] as const;

/** One more session on a day that has had its own: this share of its minutes. Our choice: more on one day adds little [Simmons2012]. */
export const ONE_MORE_SHARE = 0.5;

/** Days after a phrase was closed on which it is tried again. @source [JobBrief] "again weeks later", "checks to come"; three and eight weeks are our choice: growing distances do no worse than equal ones [Latimier2021]. */
export const CHECK_DAYS = [21, 56] as const;

/** A check: a short warm-up, and the phrase for as long as some forty runs take. Our choice. */
export const CHECK_MINUTES = { warmUp: 1, phrase: 2 } as const;

/** Weeks that are planned when work on a closed phrase begins again. Our choice; a longer plan is asked for as ever. */
export const REOPENED_WEEKS = 2;

/** When hands are tired: this share of the work is left, at this share of the tempo. Assumption. */
export const TIRED = { workShare: 0.5, tempoShare: 0.8 } as const;
