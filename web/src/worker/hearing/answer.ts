/** Answers the page's requests, one function per name. */
import type { Reading } from '@evenhand/core/problem';
import { fileClock, type Take, type TakeProblem } from '@evenhand/core/take';
import type { FileToHear, HeardTake, RequestName, Requests, ToWorker } from '../protocol.ts';
import { answerOf, listen } from './heard.ts';
import type { Input } from './input.ts';
import { measureLoop } from './loop.ts';
import { measureHeard } from './measuring.ts';
import type { Packing } from './packing.ts';
import type { StickListening } from './sticks.ts';
import type { Takes } from './takes.ts';

/** How many takes are remembered for being measured. Assumption: only the last block, or a phrase and its probes, are ever measured again. */
const REMEMBERED = 8;

type Answers = { readonly [Name in RequestName]: (ask: Requests[Name]['ask']) => Promise<Reading<Requests[Name]['answer']>> };

/** @returns a function that answers any request; it may reject only through a programming error. */
export function answerFor(
  takes: Takes,
  packing: Packing,
  { input, sticks }: { readonly input: Input; readonly sticks: StickListening },
): (request: Extract<ToWorker, { type: 'request' }>) => Promise<Reading<unknown>> {
  const heard = new Map<string, Reading<HeardTake>>();
  const remember = async (takeId: string, reading: Promise<Reading<HeardTake>>): Promise<Reading<HeardTake>> => {
    heard.set(takeId, await reading);
    for (const oldest of [...heard.keys()].slice(0, -REMEMBERED)) heard.delete(oldest);
    return reading;
  };
  const answers: Answers = {
    openTake: (asked) => takes.open(asked),
    moveTakeEnd: (ask) => takes.moveEnd(ask),
    closeTake: (ask) => remember(ask.takeId, takes.close(ask)),
    dropTake: ({ takeId }) => takes.drop(takeId),
    glanceTake: (ask) => takes.glance(ask),
    measureTake: async (ask) => measureHeard(heard.get(ask.takeId), ask),
    hearFile: (file) => remember(file.takeId, hearFile(file)),
    packTake: () => packing.packOne(),
    measureLoop: (ask) => measureLoop(input, ask),
    listenForSticks: async (asked) => {
      sticks(asked);
      return { value: true, problems: [] };
    },
    recoverTakes: () => takes.recover(),
  };
  return (request) => (answers[request.name] as (ask: unknown) => Promise<Reading<unknown>>)(request.ask);
}

async function hearFile(file: FileToHear): Promise<Reading<HeardTake>> {
  const { value: take, problems } = await takeOf(file);
  if (!take) return { value: null, problems };
  const { sampleRateHz } = take.clock;
  const { heard, problems: flaws } = listen(take);
  return answerOf(
    { takeId: file.takeId, sampleRateHz, durationSec: take.samples.length / sampleRateHz },
    { heard, problems: [...problems, ...flaws] },
  );
}

const takeOf = async (file: FileToHear): Promise<Reading<Take, TakeProblem>> =>
  'bytes' in file
    ? (await import('@evenhand/adapters/sound-file')).readSoundFile(file.bytes)
    : { value: { samples: file.samples, clock: fileClock(file.sampleRateHz) }, problems: [] };
