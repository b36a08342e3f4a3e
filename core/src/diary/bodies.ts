/** The present version of each kind of record and the shape of its body; docs/formats/diary-records.md says the same in words. */
import type { KnownKind } from './record.ts';
import type { Fields, Shape } from './shape.ts';

const STATEMENT: Shape = { fields: { code: 'text', params: { fields: {} } } };
const PROBLEM: Shape = { fields: { code: 'text', params: { fields: {} }, severity: 'text' } };

const EXERCISE: Shape = {
  fields: {
    id: 'text',
    family: 'text',
    sticking: 'text',
    surfaces: { list: 'text' },
    perBeat: 'number',
    meter: { fields: { beats: 'number', unit: 'number' } },
    bars: 'number',
    title: STATEMENT,
    reason: STATEMENT,
  },
};

const PLACE: Shape = {
  fields: {
    index: 'number',
    limb: 'text',
    count: 'number',
    unsure: 'flag',
    biasMs: 'number?',
    biasLowMs: 'number?',
    biasHighMs: 'number?',
    spreadMs: 'number?',
    levelDb: 'number?',
    missed: 'number',
    notAudible: 'number',
  },
};

const PAIR: Shape = {
  fields: {
    first: 'number',
    second: 'number',
    limb: 'text',
    gapMs: 'number?',
    gapShare: 'number?',
    gapLow: 'number?',
    gapHigh: 'number?',
    levelStepDb: 'number?',
    extraBounces: 'number',
    unsure: 'flag',
  },
};

const HEARD: Shape = {
  fields: {
    trackedBpm: 'number',
    offsetMs: 'number?',
    places: { list: PLACE },
    pairs: { list: PAIR },
    cleanRunCount: 'number',
    runCount: 'number',
    findings: { list: { fields: { code: 'text', params: { fields: {} }, cause: 'text', indices: { list: 'number' }, weight: 'number' } } },
    problems: { list: PROBLEM },
  },
};

const SESSION: Fields = {
  stickingPointId: 'text?',
  plannedMinutes: 'number',
  endedAtMs: 'number?',
  ended: 'text?',
  reason: { maybe: STATEMENT },
};

const TEMPO_RUNS: Shape = { fields: { tempoBpm: 'number', clean: 'number', runs: 'number', byEar: 'flag' } };

const BLOCK: Fields = {
  sessionId: 'text',
  position: 'number',
  exercise: EXERCISE,
  tempoBpm: 'number',
  durationSec: 'number',
  takeIds: { list: 'text' },
  heard: { maybe: HEARD },
  playerSays: 'text?',
  playerRounds: { perhaps: { fields: { hadIt: 'number', again: 'number' } } },
  nextTempo: { maybe: { fields: { tempoBpm: 'number', reason: STATEMENT } } },
  stretches: { perhaps: { list: TEMPO_RUNS } },
  search: { perhaps: { list: TEMPO_RUNS } },
  reason: { maybe: STATEMENT },
  unfinished: { perhaps: 'flag' },
};

const TAKE: Fields = {
  sessionId: 'text?',
  clock: { fields: { sampleRateHz: 'number', contextFrame0: 'number', wallMs0: 'number', latencySec: 'number', latencyFrom: 'text' } },
  durationSec: 'number',
  stored: 'text',
  clicksSec: { list: 'number' },
  clickSound: { perhaps: 'text' },
  strokes: { list: { fields: { timeSec: 'number', levelDb: 'number', confidence: 'number', drum: 'text' } } },
  problems: { list: PROBLEM },
};

const PLANNED_BLOCK: Shape = {
  fields: {
    exerciseId: 'text',
    part: 'text',
    minutes: 'number',
    tempoBpm: 'number',
    aim: STATEMENT,
    reason: STATEMENT,
    tempoReason: STATEMENT,
  },
};

const PLAN: Fields = {
  stickingPointId: 'text?',
  goalBpm: 'number',
  minutes: 'number',
  replaces: 'text?',
  weekdays: { list: 'number' },
  away: { list: 'text' },
  sessions: { list: { fields: { date: 'text', minutes: 'number', blocks: { list: PLANNED_BLOCK } } } },
  closing: { perhaps: { list: 'text' } },
  exercises: { list: EXERCISE },
  caps: { perhaps: { list: { fields: { exerciseId: 'text', tempoBpm: 'number', until: { perhaps: 'text' } } } } },
  ways: { perhaps: { list: { fields: { exerciseId: 'text', way: 'text', tempoBpm: { perhaps: 'number' }, until: { perhaps: 'text' } } } } },
  clicks: {
    perhaps: {
      list: { fields: { exerciseId: 'text', click: { perhaps: { fields: {} } }, fewerClicks: { perhaps: 'flag' }, until: { perhaps: 'text' } } },
    },
  },
  own: { perhaps: { list: { fields: { exercise: EXERCISE, as: 'text', tempoBpm: 'number', minutes: { perhaps: 'number' } } } } },
};

const STICKING_POINT: Fields = {
  name: 'text',
  sticking: 'text',
  surfaces: { list: 'text' },
  perBeat: 'number',
  tempoBpm: 'number',
  cell: { maybe: { fields: { first: 'number', last: 'number' } } },
  shapes: { perhaps: { list: 'text' } },
  fill: { perhaps: { fields: { first: 'number', last: 'number' } } },
  state: { perhaps: { fields: { is: 'text', day: 'text' } } },
};

/** Version of the bodies this program writes, and what they must look like. A body of an older version is upgraded first (upgrade.ts). */
export const BODIES: Readonly<Record<KnownKind, { readonly v: number; readonly fields: Fields }>> = {
  session: { v: 1, fields: SESSION },
  block: { v: 1, fields: BLOCK },
  take: { v: 1, fields: TAKE },
  note: {
    v: 1,
    fields: {
      text: 'text',
      sessionId: 'text?',
      part: { perhaps: { fields: { takeId: 'text', fromSec: 'number', toSec: 'number' } } },
      felt: { perhaps: 'text' },
    },
  },
  stickingPoint: { v: 1, fields: STICKING_POINT },
  plan: { v: 1, fields: PLAN },
  setting: { v: 1, fields: { name: 'text', value: 'plain' } },
  setup: { v: 1, fields: { sticks: 'text', drums: 'text', pedal: 'text', heel: 'text', phonePlace: 'text' } },
  choice: { v: 1, fields: { exercise: EXERCISE, phraseId: 'text', is: 'text', own: 'flag' } },
  thinning: { v: 1, fields: { takeIds: { list: 'text' }, byteCount: 'number' } },
  edit: { v: 1, fields: { targetId: 'text', targetV: 'number', field: 'text', value: 'any' } },
};

/** Whether this version knows a kind of record. */
export const isKnownKind = (kind: string): kind is KnownKind => Object.hasOwn(BODIES, kind);
