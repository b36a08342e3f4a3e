/** The database as each version made it, with a line, a take and whatever else that version could hold. Frozen: a version that was made once is read for ever. */

/** A store of a database: its key, and what lies in it (with a key of its own where the store has none). */
export interface StoreAsMade {
  readonly name: string;
  readonly keyPath?: string | string[];
  readonly autoIncrement?: boolean;
  readonly rows: readonly { readonly key?: string; readonly value: object }[];
}

const deviceId = 'de'.repeat(16);
const ownerId = 'd0'.repeat(16);
const takeId = '0c'.repeat(16);
const envelope = { v: 1, ownerId, atMs: 1_767_632_400_000, zone: 'Europe/Berlin', day: '2026-01-05' };
const take = { sampleRateHz: 48_000, fromFrame: 0, wallMs0: 1_767_632_400_000, latencySec: 0, latencyFrom: 'unknown', sessionId: null };

const records: StoreAsMade = {
  name: 'records',
  keyPath: 'id',
  rows: [
    {
      value: {
        ...envelope,
        id: '0a'.repeat(16),
        kind: 'note',
        made: { wallMs: 1_767_632_400_000, counter: 0, deviceId },
        body: { text: 'שלום 🥁 from an older version', sessionId: null },
      },
    },
    {
      value: {
        ...envelope,
        id: takeId,
        kind: 'take',
        made: { wallMs: 1_767_632_400_000, counter: 1, deviceId },
        body: {
          ...{ sessionId: null, durationSec: 1 / 8, stored: 'pcm', clicksSec: [], strokes: [], problems: [] },
          clock: { sampleRateHz: 48_000, contextFrame0: 0, wallMs0: 1_767_632_400_000, latencySec: 0, latencyFrom: 'unknown' },
        },
      },
    },
  ],
};
const takes: StoreAsMade = {
  name: 'takes',
  keyPath: 'takeId',
  rows: [{ value: { ...take, takeId, state: 'closed', atMs: 1_767_632_400_000, zone: 'Europe/Berlin', day: '2026-01-05' } }],
};
const chunks: StoreAsMade = {
  name: 'chunks',
  keyPath: ['takeId', 'index'],
  rows: [
    { value: { takeId, index: 0, offsetFrames: 0, samples: Float32Array.from({ length: 3000 }, () => 0.25) } },
    { value: { takeId, index: 1, offsetFrames: 3000, samples: Float32Array.from({ length: 3000 }, () => -0.5) } },
  ],
};
const facts: StoreAsMade = {
  name: 'facts',
  rows: [
    { key: 'identity', value: { deviceId, ownerId } },
    { key: 'stamp', value: { wallMs: 1_767_632_400_000, counter: 1, deviceId } },
  ],
};
const flacs: StoreAsMade = { name: 'flacs', keyPath: 'takeId', rows: [] };
const asides: StoreAsMade = {
  name: 'asides',
  keyPath: 'id',
  autoIncrement: true,
  rows: [{ value: { atMs: 1_767_632_400_000, recordCount: 1, takeCount: 0, file: new Blob(['kept aside']) } }],
};
const outlines: StoreAsMade = { name: 'outlines', rows: [] };

/** By version, from 1. */
export const DATABASES: readonly (readonly StoreAsMade[])[] = [
  [records, takes, chunks, facts],
  [records, takes, chunks, facts, flacs, asides],
  [records, takes, chunks, facts, flacs, asides, outlines],
];

/** Makes a database as a version made it. */
export function makeDatabase(name: string, version: number): Promise<void> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, version);
    request.onupgradeneeded = () => {
      for (const { name: store, keyPath, autoIncrement = false, rows } of DATABASES[version - 1]!) {
        const table = request.result.createObjectStore(store, keyPath === undefined ? {} : { keyPath, autoIncrement });
        for (const { key, value } of rows) table.put(value, key);
      }
    };
    request.onsuccess = () => {
      request.result.close();
      resolve();
    };
    request.onerror = () => reject(request.error);
  });
}
