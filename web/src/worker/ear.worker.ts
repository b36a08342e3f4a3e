/** The Worker: hears, stores and measures takes, so that the page only draws. */
import type { Problem, Reading } from '@evenhand/core/problem';
import { followed, openDatabase } from '../store/database.ts';
import { openJournal } from '../store/journal/client.ts';
import { noticesOf } from '../store/notice.ts';
import { takesOf } from '../store/takes.ts';
import { answerFor } from './hearing/answer.ts';
import { createArchive } from './hearing/archive.ts';
import { earFailed } from './hearing/heard.ts';
import { createInput } from './hearing/input.ts';
import { createPacking } from './hearing/packing.ts';
import { listenForSticks } from './hearing/sticks.ts';
import { createTakes } from './hearing/takes.ts';
import type { FromWorker, ToWorker } from './protocol.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;
const say = (message: FromWorker): void => scope.postMessage(message);
const onProblem = (problem: Problem): void => say({ type: 'problem', problem });

const input = createInput((meter) => say({ type: 'meter', meter }));
let answer: ReturnType<typeof answerFor> | null = null;

/** Everything that depends on the database's name, which the first message brings. */
function start(storeName: string): void {
  const notices = noticesOf(storeName);
  const options = { onLost: onProblem };
  const opened = openDatabase(storeName, options).then(({ value, problems }) => ({
    value: value && takesOf(followed(storeName, value, options), openJournal(storeName)),
    problems,
  }));
  const archive = createArchive(opened, notices.tell);
  const takes = createTakes({ storeName, archive, input, onStroke: (stroke) => say({ type: 'stroke', stroke }), onProblem });
  const sticks = listenForSticks(input, (counted) => say({ type: 'sticks', counted }));
  answer = answerFor(takes, createPacking(opened), { input, sticks });
}

async function reply(request: Extract<ToWorker, { type: 'request' }>): Promise<void> {
  const reading: Reading<unknown> = await Promise.resolve()
    .then(() => answer!(request))
    .catch((error: unknown) => ({ value: null, problems: [earFailed(error)] }));
  say({ type: 'reply', requestId: request.requestId, reading });
}

scope.onmessage = ({ data }: MessageEvent<ToWorker>) => {
  if (data.type === 'start') start(data.storeName);
  else if (data.type === 'input') input.connect(data.port);
  else void reply(data);
};
