/** The phrase with its cell as the diary keeps it: written once, found again when it is worked on anew. */
import type { DiaryView, RecordDraft } from '@evenhand/core/diary';
import { contentOf, readingOf, tempoOf } from './phrase.ts';
import type { Cell, Ring } from './ring.ts';
import type { Room } from './room.ts';
import { bodyAsTyped } from './savedplan.ts';

export interface PointKeeper {
  /** Id of the sticking point that was kept last; null when none was. */
  id(): string | null;
  /** Keeps the phrase with a cell, and gives its id; null while there is no phrase. */
  save(cell: Cell): Promise<string | null>;
}

interface Stand {
  ring(): Ring;
  diary(): DiaryView | null;
  append(drafts: readonly RecordDraft[]): Promise<boolean>;
}

/** @param stand where ring and diary are read and the diary is written. */
export function pointKeeper(room: Pick<Room, 'newId' | 'writtenNow'>, stand: Stand): PointKeeper {
  let id: string | null = null;
  return {
    id: () => id,
    async save(cell) {
      const { phrase } = stand.ring();
      const sticking = readingOf(phrase).value;
      const tempoBpm = tempoOf(phrase);
      if (!sticking || tempoBpm === null) return null;
      const { surfaces, perBeat } = contentOf(phrase, sticking);
      const { shapes, fill } = phrase;
      const meant = { ...(shapes.length > 0 ? { shapes } : {}), ...(fill ? { fill } : {}) };
      const body = { name: sticking.text, sticking: sticking.text, surfaces, perBeat, tempoBpm, cell, ...meant };
      const known = stand.diary()?.stickingPoints.find((point) => JSON.stringify(bodyAsTyped(point.body, body.name)) === JSON.stringify(body));
      id = known?.id ?? room.newId();
      if (!known) await stand.append([{ id, kind: 'stickingPoint', ...room.writtenNow(), body }]);
      return id;
    },
  };
}
