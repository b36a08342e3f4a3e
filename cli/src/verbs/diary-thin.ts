/** `diary thin`: the sound of old takes goes by rules, the figures stay. */
import { fold } from '@evenhand/core/diary';
import {
  isThinningNumber,
  planThinning,
  THINNING_ENDS,
  THINNING_RANGES,
  type Thinning,
  type ThinningRules,
  thinningRules,
} from '@evenhand/core/progress';
import { type SaidProblem, sizeName } from '@evenhand/core/words';
import { takeCountOf } from '../counts.ts';
import { type FolderDiary, readDiary } from '../diary-folder/folder.ts';
import { dayHere, zoneHere } from '../diary-folder/ids.ts';
import { asOnlyWriter } from '../diary-folder/lock.ts';
import { freeLetGo, letGo, soundsIn, takeBack } from '../diary-folder/thin.ts';
import { type Tried, writingProblem } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import { refuse, refuseOption } from '../problems.ts';
import type { Call, Verb } from '../verb.ts';
import { inOption, notDone } from './diary-options.ts';

export const diaryThin: Verb = {
  name: 'diary thin',
  format: 'diary-thin/1',
  summary: 'Lets the sound of old takes go; the figures stay.',
  about:
    'Says which takes’ sound would go by your rules, and with --do lets it go. Strokes, figures and lines stay for ever; reference takes, takes of then and now, takes with a line of yours and those of the last seven days keep their sound. What was let go is in no backup any more. With --back what was let go last comes back; with --free it goes for good. Rules that are not given are those of the diary.',
  takesFile: false,
  options: [
    inOption,
    { name: 'months', kind: 'whole', placeholder: 'N', example: '6', about: 'Takes keep their sound for so many months.' },
    { name: 'most', kind: 'whole', placeholder: 'MB', example: '200', about: 'The sound of all takes together is no more than so many megabytes.' },
    {
      name: 'ends',
      kind: 'text',
      placeholder: 'WHICH',
      example: 'month',
      about: 'Of each exercise the first and last take of each week or month stay: week, month or none.',
    },
    { name: 'do', kind: 'switch', example: '', about: 'Let it go; without it nothing is changed.' },
    { name: 'back', kind: 'switch', example: '', about: 'Take back what was let go last.' },
    { name: 'free', kind: 'switch', example: '', about: 'Free the room of all that was let go, for good.' },
  ],
  example: 'evenhand diary thin --in ~/diary --months 6',
  empty: { done: null, takeCount: 0, byteCount: 0, fromDay: null, toDay: null, stays: null, isOver: false },
  run: (call) => thin(call),
};

async function thin(call: Call): Promise<Outcome> {
  const wrong = wrongCall(call);
  if (wrong.length > 0) return notDone(diaryThin, wrong, 2);
  const folder = call.text.in!;
  const { do: isDone, back, free } = call.flag;
  try {
    const outcome = await (isDone || back || free ? asOnlyWriter(folder, () => work(call)) : work(call));
    return outcome.problem ? notDone(diaryThin, [outcome.problem]) : outcome.value;
  } catch (error) {
    return notDone(diaryThin, [writingProblem(folder, error)]);
  }
}

function work(call: Call): Tried<Outcome> {
  const folder = call.text.in!;
  const diary = readDiary(folder);
  if (diary.problem) return diary;
  const now = Date.now();
  const when = { atMs: now, zone: zoneHere(), day: dayHere(now) };
  if (call.flag.back) {
    const back = takeBack(folder, diary.value, when);
    if (back.problem) return back;
    const { takeIds, byteCount } = back.value.body;
    return told(diary.value, 'back', { takeCount: takeIds.length, byteCount }, [`The sound of ${takeCountOf(takeIds.length)} is back.`]);
  }
  if (call.flag.free) {
    const freed = freeLetGo(folder, diary.value);
    return told(diary.value, 'free', freed, [`The sound of ${takeCountOf(freed.takeCount)} is gone for good (${sizeName(freed.byteCount)}).`]);
  }
  const view = fold(diary.value.records);
  const plan = planThinning(view, soundsIn(folder, diary.value), { rules: rulesOf(call, thinningRules(view.settings)), today: when.day });
  if (call.flag.do && plan.takeIds.length > 0) {
    const gone = letGo(folder, diary.value, { ...plan, when });
    if (gone.problem) return gone;
  }
  const { takeIds, ...rest } = plan;
  return told(diary.value, call.flag.do ? 'letGo' : 'preview', { takeCount: takeIds.length, ...rest }, linesOf(plan, call.flag.do === true));
}

const rulesOf = ({ number, text }: Call, kept: ThinningRules): ThinningRules => ({
  ...kept,
  ...(number.months === undefined ? {} : { months: number.months }),
  ...(number.most === undefined ? {} : { mostMb: number.most }),
  ...(text.ends === undefined ? {} : { ends: text.ends as ThinningRules['ends'] }),
});

function linesOf({ takeIds, byteCount, fromDay, toDay, stays, isOver }: Thinning, isDone: boolean): readonly string[] {
  const kept = `The sound of ${takeCountOf(stays.takeCount)} stays (${sizeName(stays.byteCount)})${isOver ? '; that is more than you wanted, but the rest never goes' : ''}.`;
  if (takeIds.length === 0) return ['By these rules nothing goes.', kept];
  const span = fromDay === toDay ? `of ${fromDay}` : `from ${fromDay} to ${toDay}`;
  const what = `The sound of ${takeCountOf(takeIds.length)} ${span} ${isDone ? 'was let go' : 'would go'} (${sizeName(byteCount)}); strokes and figures stay.`;
  return [what, kept, isDone ? 'With --back it comes back, with --free the room is freed.' : 'With --do it goes.'];
}

const told = (
  { problems }: FolderDiary,
  done: 'preview' | 'letGo' | 'back' | 'free',
  facts: Readonly<Record<string, unknown>>,
  lines: readonly string[],
): Tried<Outcome> => ({ value: { exit: 0, json: { format: diaryThin.format, ...diaryThin.empty, done, ...facts, problems }, lines } });

function wrongCall({ number, text, flag }: Call): readonly SaidProblem[] {
  const { months, mostMb } = THINNING_RANGES;
  if (number.months !== undefined && !isThinningNumber('months', number.months))
    return [refuseOption('--months', String(number.months), { wanted: `${months.least} to ${months.most}`, example: '6' })];
  if (number.most !== undefined && !isThinningNumber('mostMb', number.most))
    return [refuseOption('--most', String(number.most), { wanted: `${mostMb.least} to ${mostMb.most}`, example: '200' })];
  if (text.ends !== undefined && !(THINNING_ENDS as readonly string[]).includes(text.ends))
    return [refuseOption('--ends', text.ends, { wanted: `one of ${THINNING_ENDS.join(', ')}`, example: 'month' })];
  const asked = [flag.do, flag.back, flag.free].filter(Boolean).length;
  return asked > 1 ? [refuse('diary-thin-one', {})] : [];
}
