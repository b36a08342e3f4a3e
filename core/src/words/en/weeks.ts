/** English for the page of the weeks, and the line for a parent. */
import type { LifeColumn, ListenFor, WeeksColumn, WeeksPart, WeeksStatement } from '../../plan/index.ts';
import type { Sentences } from '../sentences.ts';
import { capital, counted, limbName, listed, strokesOf } from './counted.ts';
import { dayName } from './dayname.ts';
import { familyName } from './familyname.ts';
import { tempoName } from './notevalue.ts';
import { setupName } from './setupname.ts';
import { spanName } from './shortday.ts';

const HEADINGS: Readonly<Record<WeeksPart, string>> = {
  aimed: 'What was aimed at',
  done: 'What was done',
  heard: 'What was heard',
  setup: 'What it was played with',
  decision: 'The decision, and why',
  parent: 'For home',
};

const COLUMNS: Readonly<Record<WeeksColumn, string>> = {
  week: 'Week from',
  days: 'Days practised',
  planned: 'Days planned',
  sessions: 'Sessions',
  minutes: 'Minutes',
  byHand: 'Of these by hand',
};

const LIFE_COLUMNS: Readonly<Record<LifeColumn, string>> = {
  plan: 'Plan',
  days: 'Days practised',
  planned: 'Days planned',
  minutes: 'Minutes',
  wanted: 'Wanted',
  tempo: 'Clean at its end',
};

const WHY = { there: 'There:', missing: 'Still missing:', 'closed-without': 'Closed by your own decision, without:' } as const;

const HOW_CLEAN = {
  'not-tried': 'Not yet tried',
  'not-yet': 'Not yet clean at the tempo wanted',
  once: 'Clean at the tempo wanted on one day, one more is needed',
} as const;

/** So many days are named one by one. Assumption: more are not read. */
const MOST_NAMED = 4;

export const weeksSentences: Sentences<WeeksStatement> = {
  'weeks-title': ({ from, to }) => {
    const [was, is] = [from, to].map((day) => (from.slice(0, 4) === to.slice(0, 4) ? dayName(day) : `${dayName(day)} ${day.slice(0, 4)}`));
    return `The weeks of one plan, from ${was}, to ${is}`;
  },
  'weeks-heading': ({ of }) => HEADINGS[of],
  'weeks-column': ({ of }) => COLUMNS[of],
  'weeks-day': ({ day }) => dayName(day),
  'life-title': ({ from, to }) => `The whole way of this phrase, ${spanName(from, to)}`,
  'life-plans': ({ plans, goals }) =>
    `${capital(counted(plans))} ${plans === 1 ? 'plan' : 'plans'}${goals.length > 1 ? `; wanted was ${goals.join(', then ')}` : ''}.`,
  'life-before-plans': ({ from, sessions, days, minutes }) =>
    `Before the first plan: ${many(sessions, 'session')} on ${many(days, 'day')} since ${dayName(from)} ${from.slice(0, 4)}, ${many(minutes, 'minute')}.`,
  'life-more-plans': ({ plans }) => `The table shows the latest plans; ${many(plans, 'plan')} before them count in the sums above.`,
  'life-span': ({ from, to }) => spanName(from, to),
  'life-column': ({ of }) => LIFE_COLUMNS[of],
  'life-known': ({ perBeat, bpm, lowBpm, highBpm }, noteNames) =>
    `${tempoName(Math.round(bpm), perBeat, noteNames)} (${Math.round(lowBpm)} to ${Math.round(highBpm)})`,
  'weeks-none-planned': () => 'Nothing has been planned yet, so there are no weeks to tell of. Make a plan for a phrase first.',
  'weeks-aim': ({ sticking, goalBpm, perBeat }, noteNames) => `${sticking}, wanted at ${tempoName(goalBpm, perBeat, noteNames)}.`,
  'weeks-planned': ({ sessions, daysAWeek, minutes, from, to, closed }) =>
    `Planned${closed ? ' until it was closed' : ''}: ${many(sessions, 'session')} of ${many(minutes, 'minute')}, ${many(daysAWeek, 'day')} a week, from ${dayName(from)}, to ${dayName(to)}.`,
  'weeks-done': ({ sessions, days, minutes, byHand }) =>
    sessions === 0
      ? 'Nothing was played yet in these weeks.'
      : `Played: ${many(sessions, 'session')} on ${many(days, 'day')}, ${many(minutes, 'minute')} in all${byHand > 0 ? `; ${counted(byHand)} of them written down by hand` : ''}.`,
  'weeks-skipped': ({ days }) => `Planned and not played: ${daysNamed(days)}.`,
  'weeks-stopped': ({ days }) => `Ended early: ${daysNamed(days)}.`,
  'weeks-hurt': ({ days }) => `Stopped because something hurt: ${daysNamed(days)}. If it lasts or comes back, see a licensed clinician.`,
  'weeks-earlier': ({ from, sessions, days, minutes }) =>
    `Before this plan: ${many(sessions, 'session')} on ${many(days, 'day')} since ${dayName(from)} ${from.slice(0, 4)}, ${many(minutes, 'minute')}.`,
  'weeks-before': ({ weeks }) => `The table shows the latest weeks; ${many(weeks, 'week')} before them count in the sums above.`,
  'weeks-tempo-then': ({ day, perBeat, bpm, lowBpm, highBpm }, noteNames) =>
    `First known in these weeks, on ${dayName(day)}: clean up to ${tempoName(bpm, perBeat, noteNames)} (${lowBpm} to ${highBpm}).`,
  'weeks-tempo-now': ({ day, perBeat, bpm, lowBpm, highBpm }, noteNames) =>
    `As of ${dayName(day)}: clean up to ${tempoName(bpm, perBeat, noteNames)} (${lowBpm} to ${highBpm}).`,
  'weeks-takes': ({ thenDay, nowDay, tempoBpm, perBeat }, noteNames) =>
    `The phrase at ${tempoName(tempoBpm, perBeat, noteNames)}, then (${dayName(thenDay)}) against now (${dayName(nowDay)}):`,
  'weeks-no-takes': () => 'The phrase was not yet heard at one tempo on two days, so then and now cannot be held against each other.',
  'weeks-nothing-heard': () => 'Nothing was heard of the phrase in these weeks.',
  'weeks-setup': ({ day, names, values }) => `From ${dayName(day)}, on: ${names.map((name, k) => `${setupName(name)} ${values[k]}`).join('; ')}.`,
  'weeks-setup-same': () => 'No change of sticks, drums or pedal was written down.',
  'weeks-closed': ({ day }) => `Closed on ${dayName(day)}.`,
  'weeks-paused': ({ day }) => `Put aside on ${dayName(day)}. It can be taken up again at any time.`,
  'weeks-ready': () => 'Everything asked for is there: it can be closed.',
  'weeks-goes-on': ({ to, over }) =>
    over ? 'It goes on. The weeks that were planned are over.' : `It goes on: there is a plan until ${dayName(to)}.`,
  'weeks-check': ({ day }) => `It is tried again on ${dayName(day)}.`,
  'weeks-families': ({ families, clean }) => `${HOW_CLEAN[clean]}: ${listed(families.map((family) => familyName(family).toLowerCase()))}.`,
  'weeks-else': ({ families, bursts }) => {
    const kinds = families.length > 0 ? [`${listed(families.map((family) => familyName(family).toLowerCase()))}, not played yet`] : [];
    const moments = bursts ? ['the phrase at the tempo wanted, a moment at a time'] : [];
    return `What could be tried: ${[...kinds, ...moments, 'or a lesson'].join('; ')}.`;
  },
  'weeks-check-missed': ({ days }) => `It was to be tried again on ${daysNamed(days)}, and was not.`,
  'weeks-why': ({ of }) => WHY[of],
  'weeks-parent': ({ days, plannedDays, minutes, listen, limb, hurt }) => {
    if (hurt)
      return `${practisedOn(days, plannedDays)}; something hurt, so ask how it feels before the next time, and see a licensed clinician if it lasts.`;
    if (days === 0) return 'No practice was written down in the past week; any day is a good day to begin again, and five minutes are enough.';
    const heard = listen === '' ? '' : `, listen for ${LISTEN[listen](limb)}`;
    return `${practisedOn(days, plannedDays)}, ${minutes <= 1 ? 'a minute' : `${inWords(minutes)} minutes`} a day${heard}.`;
  },
};

const LISTEN: Readonly<Record<Exclude<ListenFor, ''>, (limb: string) => string>> = {
  'two-equal': (limb) =>
    limb === 'K' || limb === 'H' ? strokesOf(2, limb).replace('two', 'two equal') : `two equal strokes of ${limbName(limb)} hand`,
  'all-there': () => 'every stroke being there',
  volume: () => 'strokes that are equally loud',
  time: () => 'strokes that come evenly',
  even: () => 'how evenly it goes now',
  'as-meant': () => 'the phrase as it is meant to sound',
};

/** With fewer than half of the days, those that were are what counts. */
function practisedOn(days: number, plannedDays: number): string {
  const of = days < plannedDays && 2 * days >= plannedDays ? ` of ${counted(plannedDays)}` : '';
  const whole = of === '' && days === 1 ? 'day' : 'days';
  return `Practised ${counted(days)}${of} ${whole} in the past week`;
}

const TO_TWENTY = ['nine', 'ten', 'eleven', 'twelve', 'thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen', 'twenty'];

/** Minutes of a usual day in words; longer ones as digits. */
const inWords = (minutes: number): string => TO_TWENTY[minutes - 9] ?? counted(minutes);

const many = (count: number, name: string): string => `${count} ${name}${count === 1 ? '' : 's'}`;

const daysNamed = (days: readonly string[]): string =>
  days.length <= MOST_NAMED ? listed(days.map((day) => dayName(day).replace(',', ''))) : `${days.length} days`;
