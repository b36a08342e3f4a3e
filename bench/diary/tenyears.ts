/** Ten years of an invented diary, written straight into the database of a page. Runs inside the page: it may name nothing outside itself. */

export interface TenYears {
  readonly sessions: number;
  readonly blocksPerSession: number;
  readonly takes: number;
  /** Bytes of sound of each take; 0 leaves the sound out. */
  readonly soundBytes: number;
  /** Last day, `YYYY-MM-DD`. */
  readonly today: string;
}

/** @returns how many records were written. */
// biome-ignore lint/complexity/noExcessiveCognitiveComplexity: it is sent into the page as one piece and may name nothing outside itself
export async function writeTenYears({ sessions, blocksPerSession, takes, soundBytes, today }: TenYears): Promise<number> {
  const done = <Value>(request: IDBRequest<Value>) =>
    new Promise<Value>((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  const db = await done(indexedDB.open('evenhand'));
  const read = db.transaction('facts').objectStore('facts');
  const { deviceId, ownerId } = (await done(read.get('identity'))) as { deviceId: string; ownerId: string };
  const DAY_MS = 86_400_000;
  const lastMs = Date.parse(`${today}T18:00:00Z`) - DAY_MS;
  const stickings = ['RLRLKK', 'RLRRLRLL', 'RRLLKK', 'RLRLRLKK', 'RLKRLK'];
  const said = (code: string, params = {}) => ({ code, params });
  let made = 0;
  let rows: object[] = [];
  const record = (kind: string, atMs: number, body: object, id = (made + 1).toString(16).padStart(32, '0')) => {
    const stamp = { wallMs: Math.floor(atMs), counter: made++, deviceId };
    rows.push({ v: 1, id, kind, ownerId, made: stamp, atMs, zone: 'Europe/Berlin', day: new Date(atMs).toISOString().slice(0, 10), body });
    return id;
  };
  const flush = () =>
    new Promise<void>((resolve, reject) => {
      const transaction = db.transaction(['records', 'takes', 'flacs'], 'readwrite');
      for (const row of rows) transaction.objectStore('records').put(row);
      rows = [];
      transaction.oncomplete = () => resolve();
      transaction.onerror = () => reject(transaction.error);
    });
  const exercise = (k: number) => {
    const sticking = stickings[k % stickings.length]!;
    const surfaces = [...sticking].map((limb) => (limb === 'K' ? 'kick' : 'snare'));
    return {
      id: (k % 40).toString(16).padStart(32, 'e'),
      family: 'pad',
      sticking,
      surfaces,
      perBeat: 4,
      meter: { beats: 4, unit: 4 },
      bars: 3,
      title: said('title-own', { text: `${sticking} ${k % 40}` }),
      reason: said('reason-own'),
    };
  };
  const heardOf = (k: number, tempoBpm: number) => {
    const { sticking } = exercise(k);
    const places = [...sticking].map((limb, index) => ({
      index,
      limb,
      count: 24,
      unsure: false,
      biasMs: (k % 7) - 3 + index / 10,
      biasLowMs: -6.123,
      biasHighMs: 7.456,
      spreadMs: 6.789 + index,
      levelDb: -24.321 - index,
      missed: 0,
      notAudible: 0,
    }));
    const pairs = [
      {
        first: 0,
        second: 2,
        limb: 'R',
        gapMs: 178.123,
        gapShare: 0.987,
        gapLow: 0.95,
        gapHigh: 1.02,
        levelStepDb: -1.23,
        extraBounces: 0,
        unsure: false,
      },
    ];
    return { trackedBpm: tempoBpm + 0.12, offsetMs: 1.5, places, pairs, cleanRunCount: 10 + (k % 8), runCount: 18, findings: [], problems: [] };
  };
  const point = record('stickingPoint', lastMs - 3650 * DAY_MS, {
    name: 'RLRLKK',
    sticking: 'RLRLKK',
    surfaces: exercise(0).surfaces,
    perBeat: 4,
    tempoBpm: 126,
    cell: { first: 4, last: 5 },
  });
  record('setting', lastMs - 3650 * DAY_MS, { name: 'cautionsRead', value: true });
  const random = crypto.getRandomValues(new Uint8Array(65_536));
  for (let s = 0; s < sessions; s++) {
    const atMs = lastMs - Math.floor(((sessions - 1 - s) * 3650) / sessions) * DAY_MS;
    const sessionId = record('session', atMs, { stickingPointId: point, plannedMinutes: 12, endedAtMs: null, ended: null, reason: null });
    const hasTake = Math.floor(((s + 1) * takes) / sessions) > Math.floor((s * takes) / sessions);
    const takeIds: string[] = [];
    if (hasTake) {
      const strokes = Array.from({ length: 96 }, (_, k) => ({
        timeSec: 1.23456 + k * 0.119,
        levelDb: -24.5 - (k % 6),
        confidence: 0.97,
        drum: k % 6 > 3 ? 'kick' : 'snare',
      }));
      const clock = { sampleRateHz: 48_000, contextFrame0: 4_800, wallMs0: atMs, latencySec: 0.031, latencyFrom: 'loopback' };
      const takeId = record('take', atMs, { sessionId, clock, durationSec: 14, stored: 'flac', clicksSec: [], strokes, problems: [] });
      takeIds.push(takeId);
      if (soundBytes > 0) {
        const flac = new Uint8Array(soundBytes);
        for (let at = 0; at < soundBytes; at += random.length) flac.set(random.subarray(0, Math.min(random.length, soundBytes - at)), at);
        flac.set(new TextEncoder().encode(takeId));
        const transaction = db.transaction(['takes', 'flacs'], 'readwrite');
        transaction.objectStore('flacs').put({ takeId, flac });
        transaction.objectStore('takes').put({
          takeId,
          state: 'closed',
          sessionId,
          sampleRateHz: 48_000,
          fromFrame: 4_800,
          wallMs0: atMs,
          latencySec: 0.031,
          latencyFrom: 'loopback',
          atMs,
          zone: 'Europe/Berlin',
          day: new Date(atMs).toISOString().slice(0, 10),
        });
        await new Promise<void>((resolve, reject) => {
          transaction.oncomplete = () => resolve();
          transaction.onerror = () => reject(transaction.error);
        });
      }
    }
    for (let position = 0; position < blocksPerSession; position++) {
      const k = s + position * 7;
      const tempoBpm = 80 + Math.floor((40 * s) / sessions);
      const isReference = hasTake && position === 0;
      record('block', atMs + position, {
        sessionId,
        position,
        exercise: exercise(isReference ? 0 : k),
        tempoBpm: isReference ? 92 : tempoBpm,
        durationSec: 72,
        takeIds: isReference ? takeIds : [],
        heard: heardOf(isReference ? 0 : k, tempoBpm),
        playerSays: null,
        nextTempo: { tempoBpm: tempoBpm + 2, reason: said('tempo-up') },
        reason: said(isReference ? 'plan-reason-reference' : 'plan-reason-work'),
      });
    }
    // A session is written when it begins; that it ended are two corrections.
    for (const [name, value] of Object.entries({ endedAtMs: atMs + 720_000, ended: 'done' }))
      record('edit', atMs + 720_000, { targetId: sessionId, targetV: 1, field: `body.${name}`, value });
    record('note', atMs + 720_000, { text: 'Second kick came a little late, heel up helped.', sessionId });
    if (rows.length > 4_000) await flush();
  }
  // A revision of the plan for the weeks around today.
  const planned = (k: number) => ({
    exerciseId: exercise(k).id,
    part: 'work',
    minutes: 4,
    tempoBpm: 100 + k,
    aim: said('aim-as-wanted', { tempoBpm: 100 + k, perBeat: 4 }),
    reason: said('plan-reason-phrase'),
    tempoReason: said('plan-tempo-goal', { tempoBpm: 100 + k }),
  });
  const dayAt = (offset: number) => new Date(lastMs + (1 + offset) * DAY_MS).toISOString().slice(0, 10);
  record('plan', lastMs + 1_000_000, {
    stickingPointId: point,
    goalBpm: 126,
    minutes: 12,
    replaces: null,
    weekdays: [1, 2, 3, 4, 5, 6, 7],
    away: [],
    sessions: Array.from({ length: 14 }, (_, k) => ({ date: dayAt(k), minutes: 12, blocks: [planned(0), planned(1), planned(2)] })),
    exercises: [0, 1, 2].map(exercise),
  });
  await flush();
  db.close();
  return made;
}
