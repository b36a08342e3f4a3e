/** English for the page that a student takes home: words first, the figure in parentheses. */
import type { ReportStatement } from '../reported.ts';
import type { Sentences } from '../sentences.ts';
import { dayName } from './dayname.ts';
import { tempoName } from './notevalue.ts';
import { timeNames, volumeNames } from './oneword.ts';
import { signed } from './signed.ts';

const HEADINGS = { strokes: 'Stroke by stroke', try: 'What to try', care: 'Take care' } as const;
const COLUMNS = { stroke: 'Stroke', drum: 'Drum', comes: 'Comes', varies: 'Varies by', volume: 'Volume' } as const;
/** @source [NIOSH98] 100 dBA for 15 minutes */
const CARE = {
  hearing:
    'Protect your hearing: a kit in a small room can pass the published exposure limits (NIOSH: 15 minutes a day at 100 dBA). Wear protection or use a pad.',
  warm: 'Warm up slowly, and rest between exercises.',
  stop: 'Stop on pain, numbness, tingling or loss of control. Pain is never progress.',
  clinician: 'If it lasts or comes back, see a licensed clinician. This page gives no medical advice.',
} as const;

export const reportSentences: Sentences<ReportStatement> = {
  'report-title': ({ sticking, tempoBpm, perBeat }, noteNames) => `${sticking}, ${tempoName(tempoBpm, perBeat, noteNames)}`,
  'report-made': ({ day, cycleCount }) =>
    [day === '' ? '' : dayName(day), cycleCount > 0 ? `heard ${cycleCount} times through` : ''].filter((part) => part !== '').join(', '),
  'report-foot': ({ day }) => (day === '' ? 'What was heard' : `What was heard, ${dayName(day)}`),
  'report-nothing': () => 'Nothing has been heard yet.',
  'report-heading': ({ of }) => HEADINGS[of],
  'report-column': ({ of }) => COLUMNS[of],
  'report-comes': ({ word, biasMs, lowMs, highMs }) => `${timeNames[word]} (${signed(biasMs)}, ${signed(lowMs)} to ${signed(highMs)} ms)`,
  'report-cannot-tell': () => 'cannot tell',
  'report-varies': ({ spreadMs }) => `± ${spreadMs.toFixed(0)} ms`,
  'report-volume': ({ word, volumeDb }) => `${volumeNames[word]} (${signed(volumeDb)} dB)`,
  'report-missed': ({ missed, notAudible }) =>
    [missed > 0 ? `missed ${times(missed)}` : '', notAudible > 0 ? `not heard ${times(notAudible)}` : ''].filter((part) => part !== '').join(', '),
  'report-try': ({ title, tempoBpm, perBeat }, noteNames) => `${title}, from ${tempoName(tempoBpm, perBeat, noteNames)}.`,
  'report-try-nothing': () => 'Nothing stands out to work on. Play it a little faster, or somewhere else on the kit, and listen again.',
  'report-care': ({ of }) => CARE[of],
};

const times = (count: number): string => ['', 'once', 'twice'][count] ?? `${count} times`;
