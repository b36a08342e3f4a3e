/** Every label, heading and hint of the screens in one table; what the core says goes through `say` instead (decision 0030). */
import type { Limb } from '@evenhand/core/sticking';
import { minutesOfSec, secOfMinutes } from '@evenhand/core/units';
import { limbNames } from '@evenhand/core/words';
import { counted } from './counted.ts';
import { gearLabels, heardLabels, soundLabels } from './labelsheard.ts';
import { demoLabels, keepingLabels, settingsLabels } from './labelskeeping.ts';
import { planLabels } from './labelsplan.ts';
import { shelfLabels } from './labelsshelf.ts';
import type { Settings } from './settings.ts';

export { shortDay } from './labelsplan.ts';

export { subdivisionName, tempoName } from './said.ts';

/** Minutes as a drummer would say them: "3 min", "12 s". */
export function minutesName(minutes: number): string {
  if (minutes < 1) return `${Math.round(secOfMinutes(minutes))} s`;
  return `${Number(minutes.toFixed(1))} min`;
}

/** Seconds as a clock shows them: "2:05". */
export const clockName = (sec: number): string => `${Math.floor(minutesOfSec(sec))}:${String(sec % 60).padStart(2, '0')}`;

/** To make one takes as long as to use it a hundred times. */
let days: Intl.DateTimeFormat | null = null;

/** A practice day in words, as this device writes dates. */
export function dayName(day: string): string {
  days ??= new Intl.DateTimeFormat('en-GB', { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' });
  return days.format(new Date(`${day}T00:00:00Z`));
}

let months: Intl.DateTimeFormat | undefined;

/** A month with its year: `monthName('2026-11')` is "November 2026". */
export function monthName(day: string): string {
  months ??= new Intl.DateTimeFormat('en-GB', { month: 'long', year: 'numeric', timeZone: 'UTC' });
  return months.format(new Date(`${day.slice(0, 7)}-01T00:00:00Z`));
}

/** A moment in words, by the clock of this device. */
export const momentName = (atMs: number): string =>
  new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'long', year: 'numeric', hour: '2-digit', minute: '2-digit' }).format(atMs);

/** A limb as it plays for this drummer: which foot is on the kick is theirs to say. */
export const limbName = (limb: Limb, { foot }: Pick<Settings, 'foot'>): string =>
  limb === 'K' ? `${limbNames.K}, ${settingsLabels.sides[foot]}` : limbNames[limb];

export const labels = {
  brand: 'Evenhand',
  skip: 'To the page',
  nav: 'Where you are',
  settings: 'Settings',
  close: 'Close',
  screens: {
    welcome: 'Welcome',
    phrase: 'The phrase',
    heard: 'What was heard',
    shelf: 'The shelf',
    plan: 'The plan',
    session: 'Session',
    diary: 'Diary',
    progress: 'What changed',
  },
  marks: { phrase: 'Phrase', heard: 'Heard', shelf: 'Shelf', plan: 'Plan', session: 'Session', diary: 'Diary' },
  opening: 'Opening the diary on this device …',
  returning: (share: number) =>
    `The browser has lost the diary that it kept here. It is being brought back from its second copy: ${Math.floor(100 * share)}\u00a0% …`,
  returningNote:
    'Nothing that was written is lost. The sound of takes has no second copy: it comes back from a file that you saved. Leave this page open; if it is closed, it goes on the next time.',
  readying: (share: number) => `Getting the diary ready to read, this once: ${Math.floor(100 * share)} % …`,
  parts: {
    coming: 'One moment …',
    missing: 'This part of Evenhand is not on this device yet and could not be fetched. Look whether there is a network, then try again.',
    again: 'Try again',
    anew: 'Load the page anew',
  },
  newer: 'A new version is here.',
  useNewer: 'Use it now',
  welcome: {
    title: 'A phrase that will not hold',
    what: 'Play it to Evenhand. It tells you in plain words which strokes come early or late, soft or loud, too close together, or not at all. Then it lays out exercises for just those, runs short sessions to a click, and keeps the diary.',
    stays: 'What you record stays on this device.',
    careTitle: 'Before you play',
    care: [
      'Protect your hearing. A kit in a small room can pass the published exposure limits (NIOSH: 15 minutes a day at 100 dBA) within one short session; wear protection or use a pad.',
      'Warm up slowly; rest between blocks.',
      'Stop on pain, numbness, tingling or loss of control. Pain is never progress.',
      'If it lasts or comes back, ask a licensed clinician; this is no medical advice.',
    ],
    begin: 'Type your phrase',
  },
  phrase: {
    title: 'Which phrase will not hold?',
    sticking: 'Sticking, one cycle',
    legend: 'R L hands · K H feet · - rest · > accent · (R) ghost · lR flam · R/ diddle',
    empty: 'For example RLRLKK',
    take: (what: string) => `Use ${what}`,
    takeOut: (what: string) => `Take out ${what}`,
    takeKey: 'or press Enter',
    count: 'Counted',
    accented: 'accented',
    strokes: (n: number, slots: number) => `${counted(n, 'stroke')} in ${counted(slots, 'slot')}`,
    subdivision: 'Played as',
    tempo: 'Tempo',
    tempoHint: 'beats a minute',
    tempoWrong: 'Type a tempo between 20 and 320.',
    drums: 'On which drums',
    drumOf: (limb: Limb) => `${limbNames[limb]} (${limb})`,
    meant: 'How it is meant',
    even: 'even',
    meantHint: 'What is meant is no fault: the take is judged against it. A second kick may always lean into the beat.',
    shapes: {
      leaning: 'leaning into the second of doubles',
      'first-accented': 'the first of doubles accented',
      swing: 'swung',
      'laid-back': 'laid back',
      ghosted: 'ghosts between',
    },
    fill: 'The fill',
    fillNone: 'none, or what goes to the toms',
    fillOn: 'strokes',
    fillTo: 'to',
  },
  take: {
    title: 'Play it',
    how: 'Ten cycles or more, as you would play it. Put the phone or laptop at arm’s length, not on the drum.',
    withClick: 'With a click and a count-in (use headphones)',
    record: 'Record',
    file: 'Open a recording',
    fileKinds: 'WAV, FLAC, MP3, M4A, Ogg, Opus, WebM, AIFF',
    noMicrophone: 'Go on without a recording',
    opening: 'Asking for the microphone …',
    countIn: (bar: number, beat: number) => `Counting in: bar ${bar}, ${beat}`,
    recording: 'Listening',
    heardSoFar: (n: number) => `${counted(n, 'stroke')} so far`,
    volume: 'Volume at the microphone',
    tooSoft: 'very soft: move closer',
    fine: 'good',
    tooLoud: 'too loud: move away',
    stop: 'Stop and hear it',
    stopKey: 'or press space',
    discard: 'Throw it away',
    listening: 'Working out every stroke …',
    reading: 'Reading the file …',
    again: 'Record again',
    notYet: 'Type a sticking first: the take is held against it.',
  },
  heard: heardLabels,
  sound: soundLabels,
  shelf: shelfLabels,
  gear: gearLabels,
  takeAlong: {
    title: 'Take it along',
    kinds: { pdf: 'Page to print', svg: 'Picture', wav: 'Sound', musicxml: 'For notation programs', midi: 'MIDI' },
    text: 'Copy as text',
    link: 'Copy a link',
    making: 'Making it …',
    saved: 'It is where your downloads go.',
    copied: 'Copied.',
    byHand: 'Copy it from here:',
    failed: 'It could not be made. Load the page again and try once more.',
    listen: 'Listen',
    stop: 'Stop',
    click: 'Click with it',
    findings: 'A page for a student',
    print: 'Print what is chosen',
    printWeek: 'Print this week',
    paperTitle: (sticking: string) => `Practice for ${sticking}`,
    givenTitle: 'An exercise from a link',
    take: 'Take it as the phrase',
    putAway: 'Put it away',
  },
  session: {
    title: 'Today’s session',
    none: 'No exercises are chosen yet.',
    toShelf: 'To the shelf',
    total: (minutes: string, blocks: number) => `${minutes} in ${counted(blocks, 'block')}`,
    aim: 'Aim',
    minutes: 'Minutes',
    lastTime: '(as it came out last time)',
    minutesOf: (title: string) => `Minutes for ${title}`,
    microphone: 'Listen with the microphone',
    start: 'Start',
    startKeys: 'Space, Enter or Page Down starts too, and a page-turn pedal. Then your hands are free.',
    starting: 'Starting the sound …',
    elsewhere: 'A session is being played in another tab of this browser. When it is over, this one can start.',
    screen: 'Put the screen where you can see it. The click runs to the end of each block by itself.',
    barWord: 'bar',
    of: 'of',
    at: 'at',
    countIn: 'Count-in',
    plain: 'Plain time',
    getReady: 'Get ready',
    inSeconds: (sec: number) => `${sec} s`,
    now: 'Now',
    next: 'Next',
    moreOfIt: 'more of this',
    last: 'Last block',
    block: (n: number, of: number) => `Block ${n} of ${of}`,
    pause: 'Pause',
    resume: 'Go on',
    skip: 'Next block',
    dontCount: 'Don’t count that one',
    notCounted: 'That one does not count.',
    stop: 'Stop',
    hurts: 'Something hurts',
    paused: 'Paused',
    listening: 'Working out what you played …',
    heard: 'Heard',
    nextTempo: (tempo: string) => `Next time: ${tempo}`,
    hurtTitle: 'Stopped',
    notListened: 'Played, not heard.',
    warmedUp: 'Warmed up.',
    leftEarly: 'Left before there was enough to tell.',
    done: 'Done for today',
    toDiary: 'To the diary',
  },
  cutOff: {
    what: (day: string | null) => `${day === null ? 'Today’s session' : `The session of ${day}`} was cut off before its end.`,
    kept: (minutes: string) => `${minutes} of it stand in the diary; at most the bar that was being played is lost.`,
    nothing: 'No round of it was played to its end.',
    toIt: 'To the rest of it',
    goOn: 'Go on with it',
    close: 'Close it as it is',
  },
  diary: {
    title: 'Diary',
    today: 'Today',
    loading: 'Opening the diary …',
    none: 'Nothing here yet. After a session its day stands here.',
    practised: (text: string) => `Practised ${text}`,
    note: 'A line about today',
    save: 'Save the line',
    saved: 'Saved.',
    earlier: 'Earlier days',
    noEarlier: 'No earlier days yet.',
    away: (day: string) => `${day}: a day away. What was planned moved on.`,
    nothing: 'nothing stands out',
    stopped: 'Stopped before the end.',
    hurt: 'Stopped because something hurt.',
    open: 'Not finished.',
    next: (tempo: string) => `Next time ${tempo}`,
    straying: 'No one stroke is off all the time: now this one strays, now that.',
    toPhrase: 'To the phrase',
    again: 'Another session',
  },
  ...planLabels,
  keeping: keepingLabels,
  set: settingsLabels,
  demo: demoLabels,
  light: { title: 'Light', system: 'As the device', light: 'Paper by day', dark: 'Pit by night' },
} as const;
