/** The takes of this tab: opened, recorded, closed; and those of a browser that did not live to close them. */
import type { Problem, Reading } from '@evenhand/core/problem';
import type { Heard } from '@evenhand/core/stroke';
import { fileClock } from '@evenhand/core/take';
import type { TakeMeta, TakeRow } from '../../store/take-rows.ts';
import type { GlanceRequest, HeardTake, MeasuredTake, ProvisionalStroke, Requests, TakeAsked, ToldClicks } from '../protocol.ts';
import type { Archive } from './archive.ts';
import { answerOf, type Listened, listen, type TakeEnding } from './heard.ts';
import type { Input } from './input.ts';
import { lockTake, withFreeTake } from './lock.ts';
import { measureHeard } from './measuring.ts';
import { createRecorder, type Recorder } from './recorder.ts';
import { headphonesWord, type Way, wayOf } from './way.ts';

/** What the takes need of their surroundings. */
export interface Surroundings {
  readonly storeName: string;
  readonly archive: Archive;
  readonly input: Input;
  readonly onStroke: (stroke: ProvisionalStroke) => void;
  readonly onProblem: (problem: Problem) => void;
}

export interface Takes {
  open(asked: TakeAsked): Promise<Reading<true>>;
  /** Moves the end of a take that was told when it was opened. */
  moveEnd(ask: Requests['moveTakeEnd']['ask']): Promise<Reading<true>>;
  close(ask: Requests['closeTake']['ask']): Promise<Reading<HeardTake>>;
  /** Hears one round of a take that goes on, as the whole will be heard in the end. */
  glance(ask: GlanceRequest): Promise<Reading<MeasuredTake>>;
  drop(takeId: string): Promise<Reading<true>>;
  /** Completes what was cut off; takes that another tab is recording are left alone. */
  recover(): Promise<Reading<readonly HeardTake[]>>;
}

interface OpenTake {
  readonly recorder: Recorder;
  readonly problems: readonly Problem[];
  stop(): void;
}

export function createTakes(around: Surroundings): Takes {
  // Promises, because a take may be closed before the store has answered that it is open.
  const open = new Map<string, Promise<OpenTake>>();
  return {
    async open({ toFrame, ...meta }) {
      const beginning = begin(around, meta, toFrame);
      open.set(meta.takeId, beginning);
      const { problems } = await beginning;
      return { value: true, problems: problems.map((problem) => ({ ...problem, severity: 'doubtful' })) };
    },
    async moveEnd({ takeId, toFrame }) {
      (await open.get(takeId))?.recorder.endsAt(toFrame);
      return { value: true, problems: [] };
    },
    async close(ask) {
      const take = await open.get(ask.takeId);
      if (!take) return closeUnknown(around.archive, ask);
      const reading = await end(around.archive, take.recorder, ask);
      take.stop();
      open.delete(ask.takeId);
      return reading;
    },
    async glance(ask) {
      const take = await open.get(ask.takeId);
      return take ? glance(take.recorder, ask) : measureHeard(undefined, ask);
    },
    async drop(takeId) {
      const take = await open.get(takeId);
      take?.stop();
      open.delete(takeId);
      await take?.recorder.end();
      return around.archive.drop(takeId);
    },
    recover: () => recover(around),
  };
}

async function begin(around: Surroundings, meta: TakeMeta, toFrame: number | undefined): Promise<OpenTake> {
  const unlock = lockTake(around.storeName, meta.takeId);
  const store = await around.archive.opened;
  const begun = store.value ? await store.value.begin(meta) : { value: null, problems: store.problems };
  const { takeId, fromFrame, sampleRateHz } = meta;
  const recorder = createRecorder(meta, {
    store: begun.value === null ? null : store.value,
    firstIndex: begun.value ?? 0,
    onStroke: ({ timeSec, levelDb, drum }) => around.onStroke({ takeId, frame: fromFrame + Math.round(timeSec * sampleRateHz), levelDb, drum }),
    onProblem: around.onProblem,
  });
  if (toFrame !== undefined) recorder.endsAt(toFrame);
  const unlisten = around.input.listen(recorder.hear);
  const stop = (): void => {
    unlisten();
    unlock();
  };
  return { recorder, problems: begun.problems, stop };
}

async function end(archive: Archive, recorder: Recorder, { takeId, toFrame, ...clicks }: Requests['closeTake']['ask']): Promise<Reading<HeardTake>> {
  const { meta } = recorder;
  await recorder.until(toFrame);
  const { heard, durationSec, unsaved } = await recorder.end();
  const samples = await archive.sound(takeId, unsaved);
  const { way, listened } = hearClicked(meta, samples, { clicks, heard });
  const problems = [...listened.problems, ...headphonesWord(way, listened.heard)];
  const { latencySec, latencyFrom } = way.clock;
  const { clicksSec, clickSound } = clicks;
  return finished(
    archive,
    { ...meta, latencySec, latencyFrom },
    { listened: { ...listened, problems }, ending: { durationSec, clicksSec, ...soundOf(clicksSec.length > 0 ? clickSound : undefined) } },
  );
}

/** A click that is heard in the sound is taken out, and the whole heard again without it. */
function hearClicked(
  meta: TakeMeta,
  samples: Float32Array<ArrayBuffer>,
  { clicks, heard }: { readonly clicks: ToldClicks; readonly heard: Heard | null },
): { readonly way: Way; readonly listened: Listened } {
  const way = wayOf(meta, samples, clicks);
  const clickTimesSec = way.heard ? clicks.clicksSec.map((sec) => sec + wholeFrames(way.clock.latencySec, meta.sampleRateHz)) : [];
  const known = { heard: way.heard ? null : heard, clickTimesSec, clickVoices: clicks.clickVoices ?? [] };
  return { way, listened: listen({ samples, clock: fileClock(meta.sampleRateHz) }, known) };
}

/** How much is heard before a round and after it: what the ear takes for quiet is learnt there, and the last stroke rings out. Assumption. */
const [BEFORE_SEC, AFTER_SEC] = [2, 0.25];

async function glance({ meta, recent }: Recorder, { sounded, ...ask }: GlanceRequest): Promise<Reading<MeasuredTake>> {
  const [{ fromSec, toSec }] = ask.spans;
  const { sampleRateHz } = meta;
  const part = await recent(Math.round((fromSec - BEFORE_SEC) * sampleRateHz), Math.round((toSec + AFTER_SEC) * sampleRateHz));
  const beganSec = part.fromFrame / sampleRateHz;
  const clicks = clicksFrom(sounded, beganSec);
  const { way, listened } = hearClicked(meta, part.samples, { clicks, heard: null });
  const about = { takeId: meta.takeId, sampleRateHz, durationSec: part.samples.length / sampleRateHz, ...latencyOf({ ...meta, ...way.clock }) };
  const moved = { ...ask, ...(ask.clicksSec ? { clicksSec: ask.clicksSec.map((sec) => sec - beganSec) } : {}) };
  const spans = ask.spans.map((span) => ({ ...span, fromSec: span.fromSec - beganSec, toSec: span.toSec - beganSec }));
  return measureHeard(answerOf(about, listened), { ...moved, spans });
}

/** Clicks from a moment of their take on, told from there. */
function clicksFrom({ clicksSec, clickVoices, clickSound }: ToldClicks, fromSec: number): ToldClicks {
  const later = clicksSec.map((sec, i) => ({ sec: sec - fromSec, voice: clickVoices?.[i] ?? ('beat' as const) })).filter(({ sec }) => sec >= 0);
  return { clicksSec: later.map(({ sec }) => sec), clickVoices: later.map(({ voice }) => voice), ...soundOf(clickSound) };
}

/** A take that this Worker does not know, begun by one that crashed: what is stored of it counts. */
async function closeUnknown(archive: Archive, { takeId, clicksSec, clickSound }: Requests['closeTake']['ask']): Promise<Reading<HeardTake>> {
  const store = await archive.opened;
  const row = await store.value?.row(takeId);
  return row?.value
    ? complete(archive, row.value, { clicksSec, ...soundOf(clickSound) })
    : { value: null, problems: row?.problems ?? store.problems };
}

async function recover({ archive, storeName }: Surroundings): Promise<Reading<readonly HeardTake[]>> {
  const rows = await archive.openRows();
  if (!rows.value) return { value: null, problems: rows.problems };
  const readings: Reading<HeardTake>[] = [];
  for (const row of rows.value) {
    const reading = await withFreeTake(storeName, row.takeId, () => complete(archive, row, { clicksSec: [] }));
    if (reading) readings.push(reading);
  }
  const found = readings.filter(({ problems }) => problems.every(({ code }) => code !== 'take-empty'));
  const problems = found.flatMap((reading) => reading.problems).map((problem): Problem => ({ ...problem, severity: 'doubtful' }));
  return { value: found.flatMap(({ value }) => value ?? []), problems };
}

/** Hears and closes a take that was cut off; one without sound is removed. */
async function complete(archive: Archive, row: TakeRow, clicks: Pick<ToldClicks, 'clicksSec' | 'clickSound'>): Promise<Reading<HeardTake>> {
  const samples = await archive.sound(row.takeId, []);
  const durationSec = samples.length / row.sampleRateHz;
  const { heard, problems } = listen({ samples, clock: fileClock(row.sampleRateHz) });
  if (samples.length === 0) {
    await archive.drop(row.takeId);
    return { value: null, problems };
  }
  const cutOff: Problem = { code: 'take-cut-off', severity: 'doubtful', at: durationSec, params: { durationSec } };
  return finished(archive, row, { listened: { heard, problems: [...problems, cutOff] }, ending: { durationSec, ...clicks } });
}

async function finished(
  archive: Archive,
  meta: TakeMeta,
  { listened, ending }: { readonly listened: Listened; readonly ending: TakeEnding },
): Promise<Reading<HeardTake>> {
  const { takeId, sampleRateHz } = meta;
  const answer = answerOf({ takeId, sampleRateHz, durationSec: ending.durationSec, ...latencyOf(meta) }, listened);
  const doubts = await archive.finish(meta, listened, ending);
  return { value: answer.value, problems: [...answer.problems, ...doubts] };
}

const latencyOf = ({ latencySec, latencyFrom }: TakeMeta): Pick<HeardTake, 'latencySec'> => (latencyFrom === 'unknown' ? {} : { latencySec });

/** Nothing is said of a sound that was not told. */
const soundOf = (clickSound: ToldClicks['clickSound']): Pick<ToldClicks, 'clickSound'> => (clickSound === undefined ? {} : { clickSound });

/** Clicks lie on frames; half a frame more would be rounded up for one and down for another. */
const wholeFrames = (sec: number, sampleRateHz: number): number => Math.round(sec * sampleRateHz) / sampleRateHz;
