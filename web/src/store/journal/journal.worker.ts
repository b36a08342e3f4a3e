/** The Worker that keeps the journal: what was written comes as a line at the end of a file of its own, and is on the disk before it says so. */
import { newId } from '../id.ts';
import { begunName, madeFolderOf } from './folder.ts';
import { lineOf, SPACE, TAKEN_BACK } from './lines.ts';
import type { Done, FromJournalWorker, JournalWork, Line, ToJournalWorker, Written } from './protocol.ts';
import { addTo, openSync, type SyncFile } from './syncfile.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;

/** The file that is written to: one at a time, for a diary lies in one database at a time. */
interface Writer {
  readonly database: string;
  readonly name: string;
  readonly file: SyncFile;
  at: number;
}

let writer: Writer | null = null;
/** One after the other: the file has one end. */
let last: Promise<unknown> = Promise.resolve();

async function writerFor({ database, identity }: Pick<Written, 'database' | 'identity'>): Promise<Writer> {
  if (writer?.database === database) return writer;
  await writer?.file.close();
  writer = null;
  const name = begunName(newId());
  writer = { database, name, file: await openSync(await madeFolderOf(database), name), at: 0 };
  await add(writer, lineOf({ journal: 1, identity }));
  return writer;
}

async function add(to: Writer, line: Uint8Array): Promise<void> {
  await addTo(to.file, line, to.at);
  to.at += line.length;
}

async function keep(written: Written): Promise<Line> {
  const to = await writerFor(written);
  const { database, name, at } = to;
  await add(to, lineOf({ records: written.records }));
  return { database, file: name, at };
}

/** Its checksum is gone in one small write; the others stay where they are. */
async function takeBack({ database, file: name, at }: Line): Promise<true> {
  const isOpen = writer?.database === database && writer.name === name;
  const file = isOpen ? writer!.file : await openSync(await madeFolderOf(database), name);
  try {
    file.write(TAKEN_BACK, { at });
    await file.flush();
  } finally {
    if (!isOpen) await file.close();
  }
  return true;
}

/** Fetched when there is time for it. */
const tend = async (storeName: string): Promise<Done['tend']> => (await import('./tend.ts')).tend(storeName);

function inTurn(work: Exclude<JournalWork, { type: 'tend' }>): Promise<Done[keyof Done]> {
  const doing = last.then((): Promise<Done[keyof Done]> => {
    if (work.type === 'keep') return keep(work.written);
    return work.type === 'takeBack' ? takeBack(work.line) : writerFor(work).then(() => true as const);
  });
  last = doing.then(makeRoom).catch(() => {});
  return doing;
}

/** Room that is made ahead. Assumption: an evening or two of sessions. */
const ROOM_BYTES = 131_072;

/**
 * What comes next is written over spaces that lie on the disk already: a file that grows must have its new size and place written down too before it is on
 * the disk, behind whatever else the file system has to write. Done behind an answer; without room a line makes the file grow.
 */
async function makeRoom(): Promise<void> {
  if (!writer) return;
  const end = await writer.file.getSize();
  if (end - writer.at < ROOM_BYTES / 2) await addTo(writer.file, new Uint8Array(ROOM_BYTES).fill(SPACE), end);
}

scope.onmessage = ({ data }: MessageEvent<ToJournalWorker>) => {
  const say = (done: Done[keyof Done] | null): void => scope.postMessage({ turn: data.turn, done } satisfies FromJournalWorker);
  (data.type === 'tend' ? tend(data.storeName) : inTurn(data)).then(say, () => say(null));
};
