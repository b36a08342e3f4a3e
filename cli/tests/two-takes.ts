/** A diary in a folder with two reference takes of a phrase, weeks apart, sound included; the drummer and all faults are invented. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { encodeFlac } from '@evenhand/adapters/flac';
import { type RecordDraft, recordId, type SetupBody, writeLines, writeRecord } from '@evenhand/core/diary';
import { expectedCycle, ownExercise, readContent } from '@evenhand/core/exercise';
import { findingsOf } from '@evenhand/core/finding';
import { measure } from '@evenhand/core/measurement';
import type { Fault } from '@evenhand/core/player';
import { readSticking } from '@evenhand/core/sticking';
import { hear } from '@evenhand/core/stroke';
import { fileClock } from '@evenhand/core/take';
import { playedTake } from './takes.ts';

export interface TwoTakes {
  readonly sticking: string;
  readonly perBeat: number;
  readonly tempoBpm: number;
  readonly cycles: number;
  readonly thenFaults: readonly Fault[];
  readonly nowFaults: readonly Fault[];
  readonly setups?: readonly [then: SetupBody, now: SetupBody];
}

const DAYS = ['2026-02-03', '2026-03-10'] as const;

export const idOf = (n: number): string => recordId(Uint8Array.from({ length: 16 }, (_, i) => (n >> (8 * i)) & 255));

/** @param home an empty folder. @returns the ids of the two takes. */
export async function twoTakes(home: string, { thenFaults, nowFaults, setups, ...played }: TwoTakes): Promise<readonly string[]> {
  mkdirSync(join(home, 'takes'));
  const content = readContent(readSticking(played.sticking).value!, { perBeat: played.perBeat }).value!;
  const exercise = ownExercise(content, 'The phrase');
  const drafts: RecordDraft[] = [];
  const takeIds = [idOf(101), idOf(102)];
  for (const [k, faults] of [thenFaults, nowFaults].entries()) {
    const when = { day: DAYS[k]!, zone: 'Europe/Vienna', atMs: Date.parse(`${DAYS[k]}T18:00:00Z`) };
    const { samples } = playedTake({ ...played, faults, seed: 5 + k });
    const heard = hear({ samples, clock: fileClock(44_100) });
    const cycle = expectedCycle(content);
    const durationSec = samples.length / 44_100;
    const { value, problems } = measure(heard.candidates, cycle, { tempoBpm: played.tempoBpm, durationSec });
    const { trackedBpm, offsetMs, places, pairs } = value!;
    const findings = findingsOf(value!, { cycle, problems });
    writeFileSync(join(home, 'takes', `${takeIds[k]}.flac`), await encodeFlac(samples, 44_100));
    if (setups) drafts.push({ ...when, kind: 'setup', body: setups[k]! });
    const clock = { sampleRateHz: 44_100, contextFrame0: 0, wallMs0: when.atMs, latencySec: 0, latencyFrom: 'unknown' } as const;
    drafts.push(
      {
        ...when,
        id: idOf(1 + k),
        kind: 'session',
        body: { stickingPointId: null, plannedMinutes: 12, endedAtMs: when.atMs + 600_000, ended: 'done', reason: null },
      },
      {
        ...when,
        kind: 'block',
        body: {
          ...{ sessionId: idOf(1 + k), position: 0, exercise, tempoBpm: played.tempoBpm, durationSec, takeIds: [takeIds[k]!] },
          ...{ playerSays: null, nextTempo: null, reason: { code: 'plan-reason-reference', params: { week: 1 } } },
          heard: { trackedBpm, offsetMs, places, pairs, cleanRunCount: 4, runCount: 10, findings, problems: [] },
        },
      },
      {
        ...when,
        id: takeIds[k]!,
        kind: 'take',
        body: { sessionId: idOf(1 + k), clock, durationSec, stored: 'flac', clicksSec: [], strokes: [], problems: [] },
      },
    );
  }
  const records = drafts.map((draft, k) =>
    writeRecord(draft, { id: idOf(1000 + k), ownerId: idOf(9), made: { wallMs: k, counter: 0, deviceId: 'd' } }),
  );
  writeFileSync(join(home, 'records.jsonl'), writeLines(records));
  return takeIds;
}
