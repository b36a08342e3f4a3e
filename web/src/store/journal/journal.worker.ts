/** The Worker that keeps the journal: what was written comes as a line at the end of a file of its own, and is on the disk before it says so. */
import { newId } from '../id.ts';
import { begunName, madeFolderOf } from './folder.ts';
import { lineOf } from './lines.ts';
import type { FromJournalWorker, Tended, ToJournalWorker, Written } from './protocol.ts';
import { addTo, openSync, type SyncFile } from './syncfile.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;
const NOTHING: Tended = { broughtBack: 0 };

/** The file that is written to: one at a time, for a diary lies in one database at a time. */
interface Writer {
  readonly database: string;
  readonly file: SyncFile;
  at: number;
}

let writer: Writer | null = null;
/** One after the other: the file has one end. */
let last: Promise<unknown> = Promise.resolve();

async function writerFor({ database, identity }: Written): Promise<Writer> {
  if (writer?.database === database) return writer;
  await writer?.file.close();
  writer = null;
  const file = await openSync(await madeFolderOf(database), begunName(newId()));
  writer = { database, file, at: 0 };
  await add(writer, lineOf({ journal: 1, identity }));
  return writer;
}

async function add(to: Writer, line: Uint8Array): Promise<void> {
  await addTo(to.file, line, to.at);
  to.at += line.length;
}

async function keep(written: Written): Promise<Tended> {
  await add(await writerFor(written), lineOf({ records: written.records }));
  return NOTHING;
}

/** Fetched when there is time for it. */
const tend = async (storeName: string): Promise<Tended> => (await import('./tend.ts')).tend(storeName);

scope.onmessage = ({ data }: MessageEvent<ToJournalWorker>) => {
  const say = (done: Tended | null): void => scope.postMessage({ turn: data.turn, done } satisfies FromJournalWorker);
  const doing = data.type === 'keep' ? last.then(() => keep(data.written)) : tend(data.storeName);
  if (data.type === 'keep') last = doing.catch(() => {});
  doing.then(say, () => say(null));
};
