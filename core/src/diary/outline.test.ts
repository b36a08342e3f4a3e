/** The outline of a diary gives the view of its records, however it came together. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DiaryView, fold } from './fold.ts';
import { foldAll, foldOn } from './foldon.ts';
import { mergeRecords } from './merge.ts';
import { addToSegment, EMPTY_SEGMENT, type OutlineSegment, plansOf, readSegment, toFold } from './outline.ts';
import type { DiaryRecord, KnownKind } from './record.ts';
import { anyRecords, DRAFTS } from './records.case.ts';

/** One of each kind, with what is not always there: fields of later versions, corrections of what the outline shortens. */
const known = fc
  .tuple(
    fc.constantFrom(...DRAFTS.filter(({ kind }) => kind !== 'edit')),
    fc.nat(30),
    fc.dictionary(fc.constantFrom('later', 'unfinished', 'search', 'takeIds', 'heard', 'replaces'), fc.jsonValue(), { maxKeys: 2 }),
    fc.dictionary(fc.constantFrom('later', 'places', 'runCount'), fc.jsonValue(), { maxKeys: 1 }),
  )
  .map(([draft, n, more, heard]) => {
    const inner = 'heard' in draft.body && draft.body.heard ? { heard: { ...draft.body.heard, ...heard } } : {};
    const body = { ...draft.body, ...inner, ...more };
    return { ...draft, v: 1, id: n.toString(16).padStart(32, '0'), ownerId: 'o', made: { wallMs: n % 7, counter: n, deviceId: 'a' }, body };
  });

const edits = fc
  .tuple(fc.nat(30), fc.constantFrom('body.heard', 'body.strokes', 'body.replaces', 'body.sessions', 'deleted'), fc.jsonValue(), fc.nat(9))
  .map(([n, field, value, at]) => ({
    ...{
      v: 1,
      id: `e${n}${field}`,
      kind: 'edit',
      ownerId: 'o',
      made: { wallMs: at, counter: n, deviceId: 'b' },
      atMs: 0,
      zone: 'UTC',
      day: '2026-01-05',
    },
    body: { targetId: n.toString(16).padStart(32, '0'), targetV: 1, field, value },
  }));

const diaries = fc
  .tuple(anyRecords, fc.array(known, { maxLength: 12 }), fc.array(edits, { maxLength: 8 }))
  // As they come back out of a store: what JSON cannot hold is not in a diary.
  .map((parts) => JSON.parse(JSON.stringify(mergeRecords(parts.flat() as DiaryRecord[], []))) as DiaryRecord[]);

/** A view without what no outline has. */
const asShown = (view: DiaryView): unknown =>
  JSON.parse(JSON.stringify(view, (key, value) => (['strokes', 'clicksSec', 'problems'].includes(key) ? undefined : value)));

const folded = (segments: readonly OutlineSegment[], records: readonly DiaryRecord[]): DiaryView => {
  const outlines = segments.flatMap(readSegment);
  const needed = new Map(plansOf(outlines).map((id) => [id, records.find((record) => record.id === id)!]));
  return foldAll(toFold(outlines, (id) => needed.get(id))).view;
};

describe('law: an outline', () => {
  it('says: decision 0068 | gives the view that the records give, added in whatever order and portions, into however many segments', () => {
    fc.assert(
      fc.property(
        diaries.chain((records) => fc.tuple(fc.constant(records), fc.shuffledSubarray(records, { minLength: records.length }))),
        fc.array(fc.integer({ min: 1, max: 7 }), { minLength: 1, maxLength: 6 }),
        ([records, shuffled], portions) => {
          const segments: OutlineSegment[] = [EMPTY_SEGMENT];
          for (let at = 0, k = 0; at < shuffled.length; k++) {
            const portion = shuffled.slice(at, at + portions[k % portions.length]!);
            if (segments.at(-1)!.count > 8) segments.push(EMPTY_SEGMENT);
            segments[segments.length - 1] = addToSegment(segments.at(-1)!, portion);
            at += portion.length;
          }
          expect(asShown(folded(segments, records))).toEqual(asShown(fold(records)));
        },
      ),
      { numRuns: 120 },
    );
  });

  it('says: decision 0068 | is the same made in one go and record by record', () => {
    fc.assert(
      fc.property(diaries, (records) => {
        const byOne = records.reduce((segment, record) => addToSegment(segment, [record]), EMPTY_SEGMENT);
        expect(byOne).toEqual(addToSegment(EMPTY_SEGMENT, records));
      }),
      { numRuns: 40 },
    );
  });
});

/** An evening as it is written: sessions, blocks, takes and notes, corrections of what was there and of what comes, each later than all before. */
const evenings = fc.array(
  fc.tuple(
    fc.constantFrom('session', 'block', 'take', 'note', 'body.text', 'body.ended', 'body.sessionId', 'body.durationSec', 'day', 'atMs', 'deleted'),
    fc.nat(20),
    fc.nat(30),
    fc.constantFrom<unknown>('2026-01-05', '2026-01-07', true, false, 7),
  ),
  { maxLength: 14 },
);

const written = (steps: readonly (readonly [string, number, number, unknown])[], firstMs: number): readonly DiaryRecord[] =>
  steps.map(([what, n, session, value], k) => {
    const idOf = (place: number) => place.toString(16).padStart(32, 'f');
    const envelope = {
      v: 1,
      ownerId: 'o',
      made: { wallMs: firstMs + k, counter: 0, deviceId: 'a' },
      atMs: n,
      zone: 'UTC',
      day: `2026-01-0${1 + (n % 5)}`,
    };
    const draft = DRAFTS.find(({ kind }) => kind === what);
    // Sessions have the ids that blocks name, or come twice under others.
    if (!draft) return { ...envelope, id: idOf(firstMs + k), kind: 'edit', body: { targetId: idOf(n), targetV: 1, field: what, value } };
    return {
      ...envelope,
      id: idOf(firstMs + k),
      kind: what,
      body: 'sessionId' in draft.body ? { ...draft.body, sessionId: idOf(session) } : draft.body,
    };
  });

it('says: decision 0068 | law: a view that goes on is the view of everything, evening after evening', () => {
  let wentOn = 0;
  fc.assert(
    fc.property(fc.array(evenings, { minLength: 1, maxLength: 4 }), (all) => {
      const parts = all.map((steps, k) => written(steps, 14 * k));
      const outlined = (records: readonly DiaryRecord[]) => readSegment(addToSegment(EMPTY_SEGMENT, records));
      let folded = foldAll(outlined(parts[0]!));
      parts.slice(1).forEach((part, k) => {
        const more = foldOn(folded, outlined(part));
        if (more) wentOn++;
        const until = parts.slice(0, k + 2).flat();
        folded = more ?? foldAll(outlined(until));
        expect(asShown(folded.view)).toEqual(asShown(fold(until)));
      });
    }),
    { numRuns: 150, seed: 9 },
  );
  // Most of them did go on.
  expect(wentOn).toBeGreaterThan(60);
});

it('says: decision 0068 | of each kind this version writes, what was heard reads back to the last digit, and only a plan that stands is asked for', () => {
  const records = DRAFTS.map((draft, k) => ({ ...draft, v: 1, id: draft.id!, ownerId: 'o', made: { wallMs: k, counter: 0, deviceId: 'a' } }));
  const segment = addToSegment(EMPTY_SEGMENT, records as DiaryRecord[]);
  const block = readSegment(segment).find(({ record }) => record.kind === 'block')!.record;
  expect(block).toEqual(records.find(({ kind }) => kind === ('block' satisfies KnownKind)));
  expect(plansOf(readSegment(segment))).toEqual(['1c'.repeat(16)]);
});
