/** English for the course of a clean tempo. */
import type { CourseBeside, CourseRests, CourseStatement } from '../../progress/index.ts';
import type { Sentences } from '../sentences.ts';
import { counted, listed } from './counted.ts';
import { dayName } from './dayname.ts';
import { noteValue } from './notevalue.ts';
import { setupName } from './setupname.ts';
import { signed } from './signed.ts';

const whole = (bpm: number): string => `${Math.round(bpm)}`.replace('-', '−');
const between = (low: number, high: number, show = whole): string =>
  show(low) === show(high) ? show(low) : `between ${show(low)} and ${show(high)}`;

const ODDS = 'nine times in ten';

export const courseSentences: Sentences<CourseStatement | CourseRests | CourseBeside> = {
  'course-held': ({ weeks, bpm, perBeat }, noteNames) =>
    `It stayed at about ${whole(bpm)} (${noteValue(perBeat, noteNames)}) for ${counted(weeks)} weeks.`,
  'course-stood': ({ from, to, weeks, bpm, perBeat, earlier, lost, afterBpm }, noteNames) => {
    const at = `about ${whole(bpm)} (${noteValue(perBeat, noteNames)})`;
    const span = `for ${counted(weeks)} weeks, from ${dayName(from)}, to ${dayName(to)}`;
    const stood = lost ? `got no further than ${at}` : `stood at ${at}`;
    return `${earlier === '' ? 'It' : `It ${earlier} at first, then it`} ${stood} ${span}; since then it ${afterBpm > bpm ? 'rose' : 'fell'}, to about ${whole(afterBpm)} at last.`;
  },
  'course-jump': ({ day, beforeBpm, afterBpm, perBeat }, noteNames) =>
    `${afterBpm > beforeBpm ? 'Clearly faster' : 'Slower'} since about ${dayName(day)}: ${noteValue(perBeat, noteNames)} at about ${whole(beforeBpm)} just before, at about ${whole(afterBpm)} at last.`,
  'course-rose': ({ from, fromBpm, toBpm, perBeat }, noteNames) =>
    `It rose from about ${whole(fromBpm)} to about ${whole(toBpm)} (${noteValue(perBeat, noteNames)}) since ${dayName(from)}.`,
  'course-fell': ({ from, fromBpm, toBpm, perBeat }, noteNames) =>
    `It stands at about ${whole(toBpm)} (${noteValue(perBeat, noteNames)}); on ${dayName(from)}, it was about ${whole(fromBpm)}.`,
  'course-held-rests': ({ from, to, days, lowBpm, highBpm, lowWeek, highWeek }) =>
    `From ${dayName(from)}, to ${dayName(to)}, ${days} days with results. The tempo lies ${between(lowBpm, highBpm)}, its change a week ${between(lowWeek, highWeek, signed)}, ${ODDS}.`,
  'course-stood-rests': ({ days, lowBpm, highBpm, lowWeek, highWeek }) =>
    `${days} days with results in which it stood: there it lies ${between(lowBpm, highBpm)}, and its change a week ${between(lowWeek, highWeek, signed)}, ${ODDS}. That it stood and then moved is clearly likelier than a steady course or one step; the first and the last of these days may be off by some.`,
  'course-jump-rests': ({ fromDay, toDay, days, lowBpm, highBpm }) =>
    `${days} days with results, for which one step is clearly likelier than a steady course. It is ${between(lowBpm, highBpm, signed)} beats a minute, and came ${fromDay === toDay ? `on ${dayName(fromDay)}` : `between ${dayName(fromDay)}, and ${dayName(toDay)}`}, ${ODDS}.`,
  'course-moved-rests': ({ from, to, days, lowBpm, highBpm }) =>
    `From ${dayName(from)}, to ${dayName(to)}, ${days} days with results. In all it moved ${between(lowBpm, highBpm, signed)} beats a minute, ${ODDS}.`,
  'course-beside-setup': ({ names, values }) =>
    `Around then the set-up changed: ${listed(names.map((name, k) => `${setupName(name)} “${values[k]}”`))}. Some of it may be that.`,
  'course-beside-away': ({ days }) => `It came after ${days} days away.`,
};
