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
  inversion: 'begun on another stroke',
  use: 'in music',
};

const feet: Readonly<Record<FeetAnswer, string>> = {
  practicePedal: 'A practice pedal: it is heard',
  footOnFloor: 'The floor: not heard, your word counts',
  movedToHands: 'Move their strokes to the hands',
  handsOnly: 'Prepare with the hands only',
};

/** To make one takes as long as to use it a hundred times. */
let shortDays: Intl.DateTimeFormat | null = null;

/** A day of a list: "Mon 5 Jan". */
export function shortDay(day: string): string {
  shortDays ??= new Intl.DateTimeFormat('en-GB', { weekday: 'short', day: 'numeric', month: 'short', timeZone: 'UTC' });
  return shortDays.format(new Date(`${day}T00:00:00Z`));
}

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
    replaces: 'It takes the place of the plan you have for this phrase; what you played stays in the diary.',
    beside: 'It stands beside the plan you have: each phrase has sessions of its own.',
    planBeside: (sticking: string) => `Plan some weeks for ${sticking} too`,
    standing: 'Your plan',
    change: 'Plan anew',
    families: (worked: readonly Family[]) => worked.map((family) => families[family] ?? family).join(', '),
    played: (minutes: string) => `played, ${minutes}`,
    notPlayed: 'not played',
    movedOn: 'not played; what was planned moved on',
    planned: 'planned',
    check: 'is it still there?',
    why: 'Aim and reason',
    parts: { warmUp: 'Warm-up', reference: 'Reference take', work: 'Work', use: 'Use' },
    saving: 'Keeping it …',
  },
  find: {
    title: 'Find its tempo, in under two minutes',
    unknown: 'Where it starts is a guess so far.',
    starting: 'Opening the sound …',
    parts: { getReady: 'Get ready', countIn: 'Count-in', play: 'Play', judging: 'Listening back …', asking: 'Had it, or again?' },
    left: (left: string) => `At most ${left} to go.`,
    enough: 'Enough',
    keys: 'A bar is counted in, then play on. Escape ends it.',
    keysByWord:
      'A bar is counted in, then play on; after it say “had it” (H, or a pedal’s upward key) or “again” (A, or the downward one). Escape ends it.',
    found: (tempo: string) => `Clean up to about ${tempo}`,
    range: (low: number, high: number, steps: number) => `Between ${low} and ${high}, 9 times in 10, from ${count(steps, 'tempo', 'tempi')}.`,
    nothing: 'Nothing could be told of it',
    nothingHint: 'The bars that were played could not be held against the sticking. Check the microphone, or switch it off and use your own word.',
    after: 'Work goes on from there; what is planned was planned again with it.',
    tried: 'What was tried',
    step: (tempo: string, clean: number, runs: number, byEar: boolean) =>
      byEar ? `${tempo}: ${clean} of ${count(runs, 'run')} clean` : `${tempo}: ${clean > 0 ? 'had it' : 'again'}`,
    back: 'To today’s session',
  },
  phrases: {
    title: 'Which phrase',
    paused: 'put aside',
    closed: 'closed',
    session: (minutes: string) => `today, ${minutes}`,
    done: 'played today',
    free: 'nothing today',
    check: (day: string) => `tried again on ${day}`,
  },
  agreed: {
    way: 'How its tempo goes',
    ways: {
      results: 'It follows what comes out',
      oneTempo: 'It stays, to make it sound good',
      bursts: 'Once through at the tempo wanted, and a rest',
      twoUpOneBack: 'Two steps up, one back',
    },
    cap: 'No faster than',
    until: 'until',
    keep: 'Agreed',
    keeping: 'Planning with it …',
    takeBack: 'Take it back',
    own: 'Your own, in every session',
    ownHint: 'A warm-up in place of the planned one, or music that you keep playing: fixed, at your tempo, out of the plan’s minutes.',
    ownNone: 'Write an exercise of your own on the shelf; then it can have its place here.',
    add: 'Put it in every session',
    exercise: 'Exercise',
    as: 'As',
    kinds: { warmUp: 'warm-up', repertoire: 'music before the end' },
    tempo: 'Tempo',
    minutes: 'Minutes',
    takeOut: 'Take it out',
    listed: (title: string, kind: string, tempo: string, minutes: string) => `${title}: ${kind}, ${tempo}${minutes === '' ? '' : `, ${minutes}`}`,
  },
  today: {
    asPlanned: 'As planned',
    onlyPad: 'Only a pad',
    fiveMinutes: 'Five minutes',
    handsTired: 'Hands are tired',
    slowDay: 'A slow day',
    quiet: 'Quiet hours',
    hurts: 'Something hurts',
    hurtBefore:
      'Last time you stopped because something hurt. Play only if it is gone, and begin easy; if it is not, rest, and ask a licensed clinician.',
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
    oneMore: 'One more, short',
    own: 'Without the microphone your word counts: after each round say “had it” (H) or “again” (A).',
    standIn: (title: string, how: 'pad' | 'movedToHands' | 'handsOnly') =>
      `${title}, ${{ pad: 'on the pad', movedToHands: 'feet moved to the hands', handsOnly: 'hands only' }[how]}`,
  },
  word: {
    hadIt: 'Had it',
    again: 'Again',
    round: (n: number, says: 'hadIt' | 'again') => `Round ${n}: ${says === 'hadIt' ? 'had it' : 'again'}.`,
    ask: (n: number) => `Round ${n}: had it, or again?`,
    keys: 'H had it · A again · Space pauses · Page Down next · Escape stops · P something hurts',
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
    tempoHint:
      'The tempo at which 85 of 100 runs come out clean: all there, in time, alike in volume. The range holds it 9 times in 10. A run is eight strokes; it may be clean while one of them is told to be a little late: what counts as in time stands under Settings.',
    exercise: 'Exercise',
    day: 'Day',
    clean: 'Clean tempo',
    range: 'Range',
    runs: 'Clean runs',
    by: 'Told by',
    byEar: 'Evenhand',
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
    compare: 'Which takes',
    compared: { days: 'first and last', week: 'this week and last', drums: 'pad and kit' },
    sides: { days: ['Then', 'Now'], week: ['Last week', 'This week'], drums: ['Pad', 'Kit'] },
    zones: 'At which tempi',
    sure: 'more than chance',
    close: 'Can it be closed?',
    there: 'What is there',
    missing: 'What is missing',
    ready: 'Everything is there. You decide.',
    counts: {
      change: 'Change what counts',
      legend: 'What has to hold before it is closed',
      always: 'always counts',
    },
    closeIt: 'Close it',
    closeAllTheSame: 'Close it all the same',
    pause: 'Put it aside for now',
    open: 'Work on it again',
    state: {
      closed: (day: string) => `Closed on ${day}. What was played stays in the diary.`,
      paused: (day: string) => `Put aside since ${day}.`,
    },
    checkOn: (day: string) => `On ${day} it is tried again: the session is on the calendar.`,
    noPlan: 'Without a plan there is nothing to hold it against.',
  },
} as const;
