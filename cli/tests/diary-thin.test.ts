/** Old sound goes by rules and comes back; what must stay stays, and a backup holds just what stands. */
import { existsSync, mkdirSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeLines, writeRecord } from '@evenhand/core/diary';
import { expect, test } from 'vitest';
import { readCall } from '../src/arguments.ts';
import { readDiary } from '../src/diary-folder/folder.ts';
import { diaryThin } from '../src/verbs/diary-thin.ts';
import { exportTo, importFrom } from './diary-calls.ts';
import { folder } from './evenhand.ts';
import { idOf } from './two-takes.ts';

async function thin(home: string, ...given: string[]) {
  const { call, problems } = readCall(diaryThin, ['--in', home, ...given]);
  expect(problems).toEqual([]);
  return diaryThin.run(call);
}

/** Four old takes of ten bytes, of which one has a line of its own. */
function oldDiary(): string {
  const home = folder();
  mkdirSync(join(home, 'takes'));
  const when = (k: number) => ({ day: `2020-0${k + 1}-10`, zone: 'UTC', atMs: Date.UTC(2020, k, 10, 18) });
  const clock = { sampleRateHz: 44_100, contextFrame0: 0, wallMs0: 0, latencySec: 0, latencyFrom: 'unknown' } as const;
  const drafts = [0, 1, 2, 3].flatMap((k) => [
    {
      ...when(k),
      id: idOf(10 + k),
      kind: 'session' as const,
      body: { stickingPointId: null, plannedMinutes: 5, endedAtMs: 0, ended: 'done' as const, reason: null },
    },
    {
      ...when(k),
      id: idOf(1 + k),
      kind: 'take' as const,
      body: { sessionId: idOf(10 + k), clock, durationSec: 1, stored: 'flac' as const, clicksSec: [], strokes: [], problems: [] },
    },
  ]);
  const line = { ...when(2), kind: 'note' as const, body: { text: 'keep that', sessionId: null, part: { takeId: idOf(3), fromSec: 0, toSec: 1 } } };
  const records = [...drafts, line].map((draft, k) =>
    writeRecord(draft, { id: idOf(100 + k), ownerId: idOf(9), made: { wallMs: k, counter: 0, deviceId: 'd' } }),
  );
  writeFileSync(join(home, 'records.jsonl'), writeLines(records));
  for (const k of [1, 2, 3, 4]) writeFileSync(join(home, 'takes', `${idOf(k)}.flac`), 'x'.repeat(10));
  return home;
}

const heard = (home: string) => readdirSync(join(home, 'takes')).length;

test('a look changes nothing; done, the takes without a line go, out of the backup too; back, all is as it was (arithmetic: three of ten bytes)', async () => {
  const home = oldDiary();
  const rules = ['--months', '12', '--ends', 'none'];
  const look = await thin(home, ...rules);
  expect(look.json).toMatchObject({
    ...{ format: 'diary-thin/1', done: 'preview', takeCount: 3, byteCount: 30, fromDay: '2020-01-10', toDay: '2020-04-10', isOver: false },
    stays: { takeCount: 1, byteCount: 10 },
  });
  expect([heard(home), existsSync(join(home, 'let-go'))]).toEqual([4, false]);
  expect((await thin(home, ...rules, '--do')).json).toMatchObject({ done: 'letGo', takeCount: 3 });
  expect(heard(home)).toBe(1);
  expect((await thin(home, ...rules)).json).toMatchObject({ takeCount: 0 });
  const zip = join(folder(), 'b.zip');
  expect(exportTo(home, zip).json).toMatchObject({ takeCount: 1 });
  // An older diary that has the sound gives it to nobody by a merge.
  const other = folder();
  expect(importFrom(other, zip).json.takeCount).toBe(1);
  expect((await thin(home, '--back')).json).toMatchObject({ done: 'back', takeCount: 3 });
  expect(heard(home)).toBe(4);
  expect(readDiary(home).value!.takeIds).toHaveLength(4);
});

test('freed, it is gone for good, and nothing can come back', async () => {
  const home = oldDiary();
  await thin(home, '--months', '12', '--ends', 'none', '--do');
  expect((await thin(home, '--free')).json).toMatchObject({ done: 'free', takeCount: 3, byteCount: 30 });
  expect(existsSync(join(home, 'let-go'))).toBe(false);
  expect((await thin(home, '--back')).json.problems).toMatchObject([{ code: 'diary-nothing-back' }]);
  expect(readDiary(home).value!.takeIds).toEqual([idOf(3)]);
});

test('a crash between the record and the files leaves sound that no backup takes along, and that still comes back', async () => {
  const home = oldDiary();
  await thin(home, '--months', '12', '--ends', 'none', '--do');
  for (const name of readdirSync(join(home, 'let-go'))) renameSync(join(home, 'let-go', name), join(home, 'takes', name));
  expect(readDiary(home).value!.takeIds).toEqual([idOf(3)]);
  expect((await thin(home, '--back')).json).toMatchObject({ takeCount: 3 });
  expect(readDiary(home).value!.takeIds).toHaveLength(4);
});

test.each([
  { given: ['--months', '999'], code: 'call-option-not' },
  { given: ['--ends', 'year'], code: 'call-option-not' },
  { given: ['--do', '--back'], code: 'diary-thin-one' },
])('a call that cannot be is told: $given', async ({ given, code }) => {
  expect(await thin(folder(), ...given)).toMatchObject({ exit: 2, json: { problems: [{ code }] } });
});
