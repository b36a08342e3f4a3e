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
  const drafts: RecordDraft[] = [];
  for (const [k, faults] of [thenFaults, nowFaults].entries()) {
    const { samples } = playedTake({ ...played, faults, seed: 5 + k });
    writeFileSync(join(home, 'takes', `${TAKE_IDS[k]}.flac`), await encodeFlac(samples, RATE_HZ));
    if (setups) drafts.push({ ...whenOf(k), kind: 'setup', body: setups[k]! });
    drafts.push(...sessionDrafts(k, samples, played));
  }
  const records = drafts.map((draft, k) =>
    writeRecord(draft, { id: idOf(1000 + k), ownerId: idOf(9), made: { wallMs: k, counter: 0, deviceId: 'd' } }),
  );
  writeFileSync(join(home, 'records.jsonl'), writeLines(records));
  return TAKE_IDS;
}

const RATE_HZ = 44_100;
const TAKE_IDS = [idOf(101), idOf(102)];

const whenOf = (k: number) => ({ day: DAYS[k]!, zone: 'Europe/Vienna', atMs: Date.parse(`${DAYS[k]}T18:00:00Z`) });

/** A session of one block, a reference take, with what our own ear heard in it. */
function sessionDrafts(
  k: number,
  samples: Float32Array,
  { sticking, perBeat, tempoBpm }: Pick<TwoTakes, 'sticking' | 'perBeat' | 'tempoBpm'>,
): readonly RecordDraft[] {
  const when = whenOf(k);
  const [sessionId, takeId] = [idOf(1 + k), TAKE_IDS[k]!];
  const content = readContent(readSticking(sticking).value!, { perBeat }).value!;
  const cycle = expectedCycle(content);
  const durationSec = samples.length / RATE_HZ;
  const { value, problems } = measure(hear({ samples, clock: fileClock(RATE_HZ) }).candidates, cycle, { tempoBpm, durationSec });
  const { trackedBpm, offsetMs, places, pairs } = value!;
  const findings = findingsOf(value!, { cycle, problems });
  const heard = { trackedBpm, offsetMs, places, pairs, cleanRunCount: 4, runCount: 10, findings, problems: [] };
  const clock = { sampleRateHz: RATE_HZ, contextFrame0: 0, wallMs0: when.atMs, latencySec: 0, latencyFrom: 'unknown' } as const;
  return [
    {
      ...{ ...when, id: sessionId, kind: 'session' },
      body: { stickingPointId: null, plannedMinutes: 12, endedAtMs: when.atMs + 600_000, ended: 'done', reason: null },
    },
    {
      ...{ ...when, kind: 'block' },
      body: {
        ...{ sessionId, position: 0, exercise: ownExercise(content, 'The phrase'), tempoBpm, durationSec, takeIds: [takeId], heard },
        ...{ playerSays: null, nextTempo: null, reason: { code: 'plan-reason-reference', params: { week: 1 } } },
      },
    },
    { ...{ ...when, id: takeId, kind: 'take' }, body: { sessionId, clock, durationSec, stored: 'flac', clicksSec: [], strokes: [], problems: [] } },
  ];
}
