/** English for what progress says. */
import type { AwayLines, Between, ProgressStatement } from '../../progress/index.ts';
import type { Forecast, ShapeStatement, TooLittle } from '../../tempo/index.ts';
import type { Sentences } from '../sentences.ts';
import { listed } from './counted.ts';
import { dayName } from './dayname.ts';
import { familyName } from './familyname.ts';
import { volumeNames } from './oneword.ts';
import { setupName } from './setupname.ts';
import { spanName } from './shortday.ts';

const LIMB: Readonly<Record<string, string>> = { R: 'right hand', L: 'left hand', K: 'kick', H: 'hi-hat foot' };

const strokeOf = ({ index, limb }: { readonly index: number; readonly limb: string }): string => `Stroke ${index + 1} (${LIMB[limb] ?? limb})`;

/** What the two takes are called. */
const SIDES: Readonly<Record<Between, readonly [string, string]>> = {
  days: ['then', 'now'],
  drums: ['on the pad', 'on the kit'],
  seconds: ['in the first seconds', 'in the last'],
};

/** "Stroke 1", "Strokes 1 and 2", "Strokes 1, 2 and 3", "Strokes 1 to 4 and 9": counted from 1. @param indices rising. */
const strokesOf = (indices: readonly number[]): string =>
  indices.length === 1 ? `Stroke ${indices[0]! + 1}` : `Strokes ${listed(runsOf(indices).flatMap(runNames))}`;

const runsOf = (indices: readonly number[]): readonly (readonly number[])[] =>
  indices.reduce<number[][]>((runs, index) => {
    if (runs.at(-1)?.at(-1) === index - 1) runs.at(-1)!.push(index);
    else runs.push([index]);
    return runs;
  }, []);

/** Three and fewer are named one by one. */
const runNames = (run: readonly number[]): readonly string[] =>
  run.length > 3 ? [`${run[0]! + 1} to ${run.at(-1)! + 1}`] : run.map((index) => `${index + 1}`);

const when = (ms: number): string => (Math.abs(ms) < 0.5 ? 'in time' : `${Math.abs(ms).toFixed(0)} ms ${ms < 0 ? 'early' : 'late'}`);

/** What the player wrote, in marks. */
const linesSaid = (when: string, lines: readonly string[]): readonly string[] =>
  lines.length === 0 ? [] : [`${when}: ${lines.map((line) => `“${line}”`).join(' ')}`];

const around = ({ before, meanwhile, back, hurt, idle }: AwayLines['params']): readonly string[] => [
  ...(hurt ? ['The session before was stopped because something hurt.'] : []),
  ...(idle ? ['No phrase was worked on.'] : []),
  ...linesSaid('Just before', before),
  ...linesSaid('Meanwhile', meanwhile),
  ...linesSaid('On coming back', back),
];

export const progressSentences: Sentences<ProgressStatement | TooLittle | Forecast | ShapeStatement> = {
  'progress-nearer-in-time': ({ thenMs, nowMs, between, ...stroke }) =>
    `${strokeOf(stroke)} is nearer in time: ${when(thenMs)} ${SIDES[between][0]}, ${when(nowMs)} ${SIDES[between][1]}.`,
  'progress-further-in-time': ({ thenMs, nowMs, between, ...stroke }) =>
    `${strokeOf(stroke)} is further off in time: ${when(thenMs)} ${SIDES[between][0]}, ${when(nowMs)} ${SIDES[between][1]}.`,
  'progress-steadier': ({ thenMs, nowMs, between, ...stroke }) =>
    `${strokeOf(stroke)} is steadier: it spreads over ${nowMs.toFixed(0)} ms ${SIDES[between][1]}, over ${thenMs.toFixed(0)} ${SIDES[between][0]}.`,
  'progress-less-steady': ({ thenMs, nowMs, between, ...stroke }) =>
    `${strokeOf(stroke)} is less steady: it spreads over ${nowMs.toFixed(0)} ms ${SIDES[between][1]}, over ${thenMs.toFixed(0)} ${SIDES[between][0]}.`,
  'progress-louder': ({ byDb, between, ...stroke }) =>
    `${strokeOf(stroke)} is louder against the others on its drum than ${SIDES[between][0]}, by ${byDb.toFixed(1)} dB.`,
  'progress-softer': ({ byDb, between, ...stroke }) =>
    `${strokeOf(stroke)} is softer against the others on its drum than ${SIDES[between][0]}, by ${byDb.toFixed(1)} dB.`,
  'progress-step': ({ first, second, limb, ...at }) =>
    `Stroke ${second + 1} against stroke ${first + 1} (${LIMB[limb] ?? limb}): ${volumeNames[at.was]} then, ${volumeNames[at.is]} now.`,
  'progress-as-before': ({ indices }) =>
    `${strokesOf(indices)} ${indices.length === 1 ? 'comes as it came' : 'come as they came'}, as far as an ear can tell.`,
  'progress-cannot-say': ({ indices }) =>
    `Of ${strokesOf(indices).toLowerCase()} it cannot be said yet: the ranges are too wide. More cycles would tell.`,
  'progress-nothing-sure': () => 'Nothing changed for sure: the differences are no larger than chance makes them.',
  'progress-lines-differ': ({ thenDay, nowDay, faultThen }) =>
    `In the diary the line of ${dayName(faultThen ? thenDay : nowDay)}, names a fault and that of ${dayName(faultThen ? nowDay : thenDay)}, none. Both are right: each line is of one take alone, one a little past what counts and one a little short of it, and between two takes so little may be chance.`,
  'progress-too-few-strokes': () => 'There are too few strokes in these takes to compare them. Record at least six cycles.',
  'progress-setup-differs': ({ names }) =>
    `These takes were made with a different set-up (${names.map(setupName).join(', ')}); some of what changed may be that.`,
  'progress-tempo-differs': ({ thenBpm, nowBpm }) => `These takes were played at different tempi, ${thenBpm} then and ${nowBpm} now.`,
  'progress-phrase-holds': ({ goalBpm, days, daysHeard }) =>
    `The phrase itself: clean at ${goalBpm}, the tempo wanted, on ${days} days${daysHeard === 0 ? ', by your word' : ''}.`,
  'progress-phrase-once': ({ goalBpm, day }) =>
    `The phrase itself: clean at ${goalBpm}, the tempo wanted, on ${dayName(day)}; one more day is needed.`,
  'progress-phrase-not-yet': ({ goalBpm }) => `The phrase itself: not yet clean at ${goalBpm}, the tempo wanted.`,
  'progress-phrase-not-tried': () => 'The phrase itself: not yet tried.',
  'progress-family-holds': ({ family, days, daysHeard }) =>
    `${familyName(family)}: clean at the tempo wanted on ${days} days${daysHeard === 0 ? ', by your word' : ''}.`,
  'progress-family-once': ({ family, day }) => `${familyName(family)}: clean at the tempo wanted on ${day}; one more day is needed.`,
  'progress-family-not-yet': ({ family }) => `${familyName(family)}: not yet clean at the tempo wanted.`,
  'progress-family-not-tried': ({ family }) => `${familyName(family)}: not yet tried.`,
  'progress-use-not-chosen': () => 'No exercise that uses the phrase in music was chosen yet; what you play with others is not heard here.',
  'progress-check-held': ({ day }) => `Weeks later, on ${day}, it was still there.`,
  'progress-check-due': ({ from }) => `Everything holds. Try the phrase again on ${from} or later, to see that it stays.`,
  'progress-check-later': () => 'A check comes three weeks after everything holds.',
  'progress-came-back': ({ day, days }) => `Since ${dayName(day)}, it was not clean at the tempo wanted on ${days} days. It can be opened again.`,
  'progress-welcome-back': ({ days }) => `Good to see you again after ${days} days.`,
  'progress-away-written': ({ from, to, days, ...lines }) => [`${spanName(from, to)}: ${days} days away.`, ...around(lines)].join(' '),
  'progress-away-lines': (lines) => around(lines).join(' '),
  'clean-tempo-few-runs': ({ runs, needed }) =>
    `Too little yet: ${runs} ${runs === 1 ? 'run' : 'runs'} so far, a clean tempo is told from ${needed} on.`,
  'clean-tempo-all-clean': ({ fastestBpm }) => `Too little yet: everything was clean up to ${fastestBpm}. Faster will tell.`,
  'clean-tempo-none-clean': ({ slowestBpm }) => `Too little yet: nothing was clean down to ${slowestBpm}. Slower will tell.`,
  'clean-tempo-wide': ({ lowBpm, highBpm }) => `Cannot be told closer: somewhere between ${Math.round(lowBpm)} and ${Math.round(highBpm)}.`,
  'clean-tempo-two-ranges': ({ fromBpm, toBpm }) =>
    `There are two ways of playing it, it seems: clean up to about ${Math.round(fromBpm)} and again from about ${Math.round(toBpm)}, poor between.`,
  'clean-tempo-from': ({ fromBpm }) => `Slower than about ${Math.round(fromBpm)} it does not hold either.`,
  'forecast-between': ({ goalBpm, from, to }) => `If it goes on like this, ${goalBpm} comes between ${dayName(from)}, and ${dayName(to)}.`,
  'forecast-from': ({ goalBpm, from }) =>
    `If it goes on like this, ${goalBpm} comes on ${dayName(from)}, at the earliest; how much later cannot be said yet.`,
  'forecast-there': ({ goalBpm }) => `${goalBpm}, the tempo wanted, is there.`,
  'forecast-not-yet-seen': ({ goalBpm, weeks }) =>
    `Going on like this, ${goalBpm} is not in sight within ${weeks} weeks. Something else may be worth trying.`,
  'forecast-too-little': ({ days, needed }) =>
    `Too little yet to say when: a date is told from clean tempi of ${needed} days over more than a week; so far there ${days === 0 ? 'are none' : days === 1 ? 'is one' : `are ${days}`}.`,
};
