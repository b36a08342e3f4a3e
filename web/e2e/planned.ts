/** A diary in which today's session is planned already, block by block, as long as a test wants it: minutes are data. */
import { CUT_OVER_HOUR, practiceDay, type RecordDraft, writeRecord } from '@evenhand/core/diary';
import type { Exercise } from '@evenhand/core/exercise';
import { expect, type Page } from '@playwright/test';
import { planBody } from '../src/app/savedplan.ts';
import type { Settings } from '../src/app/settings.ts';

export interface PlannedPart {
  readonly exerciseId: string;
  readonly part: 'reference' | 'work';
  readonly minutes: number;
  readonly tempoBpm: number;
}

export interface Planned {
  readonly blocks: readonly PlannedPart[];
  readonly tempoBpm: number;
  readonly startBy: Settings['startBy'];
  readonly address?: string;
  /** Clean runs the day before, all that there were. */
  readonly before?: { readonly tempoBpm: number; readonly runs: number };
}

const said = (code: string, params: object = {}) => ({ code, params }) as never;

/** A block of a plan with what a plan says of it. */
export const plannedPart = (exercise: Exercise, part: PlannedPart['part'], { minutes, tempoBpm }: Pick<PlannedPart, 'minutes' | 'tempoBpm'>) => ({
  ...{ exerciseId: exercise.id, part, minutes, tempoBpm },
  aim: said('aim-as-wanted', { tempoBpm, perBeat: exercise.perBeat }),
  reason: part === 'reference' ? said('plan-reason-reference', { week: 1 }) : said('plan-reason-phrase'),
  tempoReason: said('plan-tempo-goal', { tempoBpm }),
});

const DAY_MS = 86_400_000;

/** A session of one block, heard to its end. */
function yesterday(
  exercise: Exercise,
  { tempoBpm, runs, atMs, zone }: { tempoBpm: number; runs: number; atMs: number; zone: string },
): readonly object[] {
  const when = { atMs, zone, day: practiceDay(atMs, zone, CUT_OVER_HOUR) };
  const sessionId = '6'.repeat(32);
  const ended = { stickingPointId: null, plannedMinutes: 1, endedAtMs: atMs + 60_000, ended: 'done', reason: null };
  const heard = { trackedBpm: tempoBpm, offsetMs: null, places: [], pairs: [], cleanRunCount: runs, runCount: runs, findings: [], problems: [] };
  const played = { sessionId, position: 0, exercise, tempoBpm, durationSec: 60, takeIds: [], heard, playerSays: null, nextTempo: null };
  return [
    { kind: 'session', id: sessionId, ...when, body: ended },
    { kind: 'block', ...when, body: { ...played, reason: said('plan-reason-phrase') } },
  ];
}

/** What was planned and set on another day lies in the diary. */
export async function plannedBefore(page: Page, exercise: Exercise, { blocks, tempoBpm, startBy, address = './', before }: Planned): Promise<void> {
  await page.goto(address);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  const zone = await page.evaluate(() => Intl.DateTimeFormat().resolvedOptions().timeZone);
  const atMs = Date.now();
  const when = { atMs, zone, day: practiceDay(atMs, zone, CUT_OVER_HOUR) };
  const pointId = '5'.repeat(32);
  const point = {
    name: exercise.sticking,
    sticking: exercise.sticking,
    surfaces: exercise.surfaces,
    perBeat: 4,
    tempoBpm,
    cell: { first: exercise.surfaces.length - 2, last: exercise.surfaces.length - 1 },
  };
  const sessions = [{ date: when.day, minutes: blocks.reduce((sum, { minutes }) => sum + minutes, 0), blocks }];
  const plan = planBody({ replaces: null, weekdays: [1, 2, 3, 4, 5, 6, 7], away: [], sessions } as never, {
    ...{ stickingPointId: pointId, goalBpm: tempoBpm, minutes: 12 },
    exercises: [exercise],
  });
  const drafts = [
    { kind: 'setting', ...when, body: { name: 'cautionsRead', value: true } },
    { kind: 'setting', ...when, body: { name: 'startBy', value: startBy } },
    { kind: 'stickingPoint', id: pointId, ...when, body: point },
    { kind: 'plan', ...when, body: plan },
    ...(before ? yesterday(exercise, { ...before, atMs: atMs - DAY_MS, zone }) : []),
  ] as readonly RecordDraft[];
  const records = drafts.map((draft, k) =>
    writeRecord(draft, { id: String(k).repeat(32), ownerId: 'a'.repeat(32), made: { wallMs: atMs, counter: k, deviceId: 'b'.repeat(32) } }),
  );
  await page.evaluate(async (all) => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('evenhand');
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(opening.error);
    });
    const transaction = db.transaction('records', 'readwrite');
    for (const record of all) transaction.objectStore('records').put(record);
    await new Promise((resolve) => transaction.addEventListener('complete', resolve));
    db.close();
  }, records);
}
