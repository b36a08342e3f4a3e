/** Labels of plan, today, the player's own word, pictures and progress: a part of the one table (labels.ts), kept apart only for its length. */
import type { Weekday } from '@evenhand/core/day';
import type { Family } from '@evenhand/core/exercise';
import type { FeetAnswer } from '@evenhand/core/plan';

const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`;

const weekdays: Readonly<Record<Weekday, string>> = { 1: 'Mon', 2: 'Tue', 3: 'Wed', 4: 'Thu', 5: 'Fri', 6: 'Sat', 7: 'Sun' };

/** Kinds of exercise inside a line. */
const families: Readonly<Record<Family, string>> = {
  rudiment: 'rudiment',
  pad: 'pad',
  groove: 'groove',
  fill: 'fill',
  kit: 'around the kit',
  dynamics: 'volume',
  inversion: 'begun elsewhere',
  use: 'in music',
};

const feet: Readonly<Record<FeetAnswer, string>> = {
  practicePedal: 'A practice pedal: it is heard',
  footOnFloor: 'The floor: not heard, your word counts',
  movedToHands: 'Move their strokes to the hands',
  handsOnly: 'Prepare with the hands only',
};

/** A day of a list: "Mon 5 Jan". */
export const shortDay = (day: string): string =>
  new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' }).format(new Date(`${day}T00:00:00Z`));

export const planLabels = {
  pictures: {
    ring: 'One cycle as a ring',
    cycles: 'Every stroke over the cycles',
    drawing: 'Drawing …',
    graces: 'Grace before it',
    place: 'Written at',
  },
  plan: {
    title: 'Some weeks of it',
    none: 'There is no phrase to plan for yet. Play one, or type it and choose the strokes that will not hold.',
    toPlan: 'Plan some weeks',
    what: 'Short sessions, made in advance: what, in what order, how long, at what tempo, and why. Results move it on; a missed day moves it, and nothing else happens.',
    weeks: 'Weeks',
    days: 'Days for practice',
    weekday: (day: Weekday) => weekdays[day],
    minutes: 'Minutes a day',
    start: 'First day',
    goal: 'Wanted at',
    total: (sessions: number, minutes: string) => `${count(sessions, 'session')} of ${minutes}.`,
    week: (n: number) => `Week ${n}`,
    accept: 'Keep this plan',
    replaces: 'It takes the place of the plan you have; what you played stays in the diary.',
    standing: 'Your plan',
    change: 'Plan anew',
    families: (worked: readonly Family[]) => worked.map((family) => families[family] ?? family).join(', '),
    played: (minutes: string) => `played, ${minutes}`,
    notPlayed: 'not played',
    movedOn: 'not played; what was planned moved on',
    planned: 'planned',
    why: 'Aim and reason',
    parts: { warmUp: 'Warm-up', reference: 'Reference take', work: 'Work', use: 'Use' },
    saving: 'Keeping it …',
  },
  today: {
    asPlanned: 'As planned',
    onlyPad: 'Only a pad',
    fiveMinutes: 'Five minutes',
    handsTired: 'Hands are tired',
    slowDay: 'A slow day',
    quiet: 'Quiet hours',
    hurts: 'Something hurts',
    howIsIt: 'Today is different',
    feetTitle: 'What do the feet play on?',
    feet,
    notHere: 'Nothing can be started like this.',
    done: 'Today’s session is played.',
    free: 'No session is planned for today.',
    next: (day: string) => `The next one is on ${day}.`,
    rest: 'This phrase is closed, or put aside for now. What changed has it, and opens it again.',
    over: 'The plan is at its end. Look at what changed, or plan on.',
    toPlan: 'The plan',
    toProgress: 'What changed',
    fromShelf: 'Play something from the shelf',
    own: 'Without the microphone your word counts: after each round say “had it” (H) or “again” (A).',
    standIn: (title: string, how: 'pad' | 'movedToHands' | 'handsOnly') =>
      `${title}, ${{ pad: 'on the pad', movedToHands: 'feet moved to the hands', handsOnly: 'hands only' }[how]}`,
  },
  word: {
    hadIt: 'Had it',
    again: 'Again',
    round: (n: number, says: 'hadIt' | 'again') => `Round ${n}: ${says === 'hadIt' ? 'had it' : 'again'}.`,
    ask: (n: number) => `Round ${n}: had it, or again?`,
    keys: 'H had it · A again · Space pauses · Page Down next · Escape stops',
    counted: (hadIt: number, again: number) => `By your word: had it ${hadIt} of ${count(hadIt + again, 'round')}.`,
  },
  progress: {
    title: 'What changed',
    toProgress: 'What changed over the days',
    toDiary: 'To the diary',
    away: (days: number) =>
      days === 0 ? 'You practised today.' : days === 1 ? 'The last session was yesterday.' : `${days} days since the last session.`,
    looking: 'Looking through the diary …',
    never: 'Nothing was practised yet. After the first session its figures stand here.',
    practised: 'Days and minutes',
    week: 'Week from',
    sessions: 'Sessions',
    days: 'Days',
    minutes: 'Minutes',
    underOne: 'under 1',
    all: 'All together',
    tempo: 'Clean tempo',
    tempoTable: 'Day by day',
    tempoHint: 'The tempo at which 85 of 100 runs come out clean: all there, in time, alike in volume. The range holds it 9 times in 10.',
    exercise: 'Exercise',
    day: 'Day',
    clean: 'Clean tempo',
    range: 'Range',
    runs: 'Clean runs',
    by: 'By',
    byEar: 'ear',
    byWord: 'your word',
    noResults: 'No results yet: nothing was heard, and you said nothing about it.',
    thenNow: 'Then and now',
    thenNowTable: 'Stroke by stroke',
    thenNowHint:
      'The range in brackets holds the true figure 95 times in 100. For volume only the mean of each stroke is kept, so nothing about chance can be told.',
    volumes: 'Volume, the figures',
    volumesHint: 'In decibels: a stroke against the mean of all on its drum, and the second of a double against its first. Minus is softer.',
    step: (first: number, second: number) => `${second + 1} against ${first + 1}`,
    noThenNow: 'Two reference takes at the same tempo are needed, from different weeks. The plan has one each week.',
    between: (then: string, now: string, tempo: string) => `${then} and ${now}, ${tempo}.`,
    time: 'In time, ms',
    spread: 'Spread, ms',
    stroke: 'Stroke',
    atFirst: 'Then',
    now: 'Now',
    sure: 'more than chance',
    close: 'Can it be closed?',
    there: 'What is there',
    missing: 'What is missing',
    ready: 'Everything is there. You decide.',
    closeIt: 'Close it',
    pause: 'Put it aside for now',
    open: 'Work on it again',
    state: {
      closed: (day: string) => `Closed on ${day}. What was played stays in the diary.`,
      paused: (day: string) => `Put aside since ${day}.`,
    },
    noPlan: 'Without a plan there is nothing to hold it against.',
  },
} as const;
