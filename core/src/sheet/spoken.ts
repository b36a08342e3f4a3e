/** What a screen reader should say of an exercise, as codes; `words` makes it a sentence. */
import { type ExerciseContent, stickingOfContent } from '../exercise/index.ts';
import type { Statement } from '../problem.ts';
import { eventsOf, type StickingEvent } from '../sticking/index.ts';

/**
 * The strokes of one cycle to be read aloud. An event is its strokes joined by `+`, each as signs and limb in canonical
 * writing (`l>R`, `(L)`, `Kz`, `R/`), `-` for a rest; a group begins with its counts, `3:2`, and ends with `}`.
 */
export type SpokenSheet = Statement<'sheet-spoken', { readonly events: readonly string[]; readonly perBeat: number }>;

/** The statement to say for a sheet; its sentence makes a good `label`. */
export function spokenSheet(content: ExerciseContent): SpokenSheet {
  const events = eventsOf(stickingOfContent(content));
  const spoken = events.flatMap((event, i) => [...opening(event, events[i - 1]), writtenOf(event), ...closing(event, events[i + 1])]);
  return { code: 'sheet-spoken', params: { events: spoken, perBeat: content.perBeat } };
}

const opening = ({ group }: StickingEvent, before?: StickingEvent): readonly string[] =>
  group && group.startSlot !== before?.group?.startSlot ? [`${group.eventCount}:${group.slotCount}`] : [];

const closing = ({ group }: StickingEvent, after?: StickingEvent): readonly string[] =>
  group && group.startSlot !== after?.group?.startSlot ? ['}'] : [];

function writtenOf({ strokes }: StickingEvent): string {
  const heads = strokes.filter(({ diddle }) => diddle !== 'second');
  const written = heads.map(({ limb, accent, ghost, buzz, diddle, graces }) => {
    const sign = buzz ? 'z' : diddle ? '/' : '';
    return `${graces.join('').toLowerCase()}${accent ? '>' : ''}${ghost ? `(${limb})` : limb}${sign}`;
  });
  return written.length === 0 ? '-' : written.join('+');
}
