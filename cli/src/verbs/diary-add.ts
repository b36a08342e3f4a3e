/** `diary add`: writes down practice without the tool. */
import { type ByHandEntry, type DiaryRecord, draftsByHand, isDay } from '@evenhand/core/diary';
import { msOfMinutes } from '@evenhand/core/units';
import type { SaidProblem } from '@evenhand/core/words';
import { makeDiary, readDiary } from '../diary-folder/folder.ts';
import { dayHere, newId, zoneHere } from '../diary-folder/ids.ts';
import { asOnlyWriter } from '../diary-folder/lock.ts';
import { writeDrafts } from '../diary-folder/written.ts';
import { type Tried, writingProblem } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import { doubt, refuse, refuseOption } from '../problems.ts';
import type { Call, Verb } from '../verb.ts';
import { inOption, notDone } from './diary-options.ts';

const MINUTES_OF_A_DAY = 1440;

export const diaryAdd: Verb = {
  name: 'diary add',
  format: 'diary-add/1',
  summary: 'Writes down practice without the tool.',
  about:
    'Writes down what you practised on a day without the tool: minutes, a note, or both. The folder is made when it is not there. What is told as written is on the disk.',
  takesFile: false,
  options: [
    inOption,
    { name: 'day', kind: 'text', placeholder: 'DATE', example: '2026-02-04', required: true, about: 'The day you played, as YYYY-MM-DD.' },
    { name: 'minutes', kind: 'number', placeholder: 'N', example: '20', about: 'How many minutes you played.' },
    { name: 'note', kind: 'text', placeholder: 'TEXT', example: '"doubles on the pad"', about: 'Anything you want to remember.' },
  ],
  example: 'evenhand diary add --in ~/diary --day 2026-02-04 --minutes 20 --note "doubles on the pad"',
  empty: { day: null, recordIds: [] },
  run: (call) => add(call),
};

async function add(call: Call): Promise<Outcome> {
  const wrong = wrongCall(call);
  if (wrong.length > 0) return notDone(diaryAdd, wrong, 2);
  const folder = call.text.in!;
  const entry = entryOf(call);
  try {
    makeDiary(folder);
    const done = await asOnlyWriter(folder, () => write(folder, entry));
    return done.problem ? notDone(diaryAdd, [done.problem]) : told(entry, done.value);
  } catch (error) {
    return notDone(diaryAdd, [writingProblem(folder, error)]);
  }
}

function wrongCall({ text, number }: Call): SaidProblem[] {
  const wrong: SaidProblem[] = [];
  const day = text.day!;
  if (!isDay(day)) wrong.push(refuseOption('--day', day, { wanted: 'a day there is, as YYYY-MM-DD', example: '2026-02-04' }));
  if ((number.minutes ?? 0) > MINUTES_OF_A_DAY)
    wrong.push(refuseOption('--minutes', String(number.minutes), { wanted: 'the minutes of one day, at most 1440', example: '20' }));
  if (number.minutes === undefined && text.note === undefined) wrong.push(refuse('diary-nothing-to-add', {}));
  return wrong;
}

/** Today's practice ended now, as far as one knows; of another day only the day is known, and its noon stands for it. */
function entryOf({ text, number }: Call): ByHandEntry {
  const now = Date.now();
  const day = text.day!;
  const minutes = number.minutes ?? null;
  const atMs = day === dayHere(now) ? now - msOfMinutes(minutes ?? 0) : new Date(`${day}T12:00:00`).getTime();
  return { day, atMs: Math.round(atMs), zone: zoneHere(), minutes, note: text.note ?? null };
}

function write(folder: string, entry: ByHandEntry): Tried<readonly DiaryRecord[]> {
  const diary = readDiary(folder);
  return diary.problem ? diary : writeDrafts(folder, diary.value.records, draftsByHand(entry, newId()));
}

function told({ day, minutes, note }: ByHandEntry, records: readonly DiaryRecord[]): Outcome {
  const ahead = day > dayHere(Date.now());
  const what = [...(minutes === null ? [] : [minutes === 1 ? '1 minute' : `${minutes} minutes`]), ...(note === null ? [] : ['a note'])].join(' and ');
  return {
    exit: 0,
    json: {
      format: diaryAdd.format,
      day,
      recordIds: records.map(({ id }) => id),
      problems: ahead ? [doubt('diary-day-ahead', { day })] : [],
    },
    lines: [`Written down for ${day}: ${what}.`],
  };
}
