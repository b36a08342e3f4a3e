import type { Exercise } from '@evenhand/core/exercise';
import { describe, expect, test } from 'vitest';
import type { HeardPhrase } from './heardphrase.ts';
import { emptyPhrase } from './phrase.ts';
import { inCell, newRing, type Ring, type RingEvent, type Shelf, startTempoBpm, turnRing } from './ring.ts';

const heardWith = (indices: readonly number[], strokeCount = 6): HeardPhrase =>
  ({
    takeId: 't',
    phrase: emptyPhrase,
    measurement: { places: Array.from({ length: strokeCount }, (_, index) => ({ index })) },
    findings: [{ code: 'f', params: {}, cause: 'place', indices, weight: 1 }],
    cell: { first: 4, last: 5 },
    problems: [],
  }) as unknown as HeardPhrase;

const exercises = ['a', 'b', 'c', 'd'].map((id) => ({ id }) as Exercise);
const turned = (ring: Ring, ...events: readonly RingEvent[]): Ring => events.reduce(turnRing, ring);
const filled: RingEvent = { kind: 'shelfFilled', exercises, problems: [], tempoBpm: 82, knownTempi: { b: 90 } };
const shelfOf = (ring: Ring): Shelf => ring.shelf as Shelf;

describe('the strokes proposed to work on', () => {
  test('a cell that wraps around holds both ends and nothing between (arithmetic)', () => {
    expect([0, 1, 2, 3, 4, 5].filter((index) => inCell({ first: 5, last: 0 }, index))).toEqual([0, 5]);
    expect([0, 1, 2, 3, 4, 5].filter((index) => inCell({ first: 2, last: 3 }, index))).toEqual([2, 3]);
  });
});

test('three are chosen beforehand; a fourth is taken only when one is put back (issue 2: three blocks)', () => {
  const shelf = turned(newRing('shelf'), filled);
  expect(shelfOf(shelf).chosen.map(({ id }) => id)).toEqual(['a', 'b', 'c']);
  expect(shelfOf(turned(shelf, { kind: 'exerciseToggled', id: 'd' })).chosen).toHaveLength(3);
  const changed = turned(shelf, { kind: 'exerciseToggled', id: 'b' }, { kind: 'exerciseToggled', id: 'd' });
  expect(shelfOf(changed).chosen.map(({ id }) => id)).toEqual(['a', 'c', 'd']);
});

test('an exercise of the drummer’s own lies beside the one it was made of, or at the head, and once; what is dropped leaves the session (issue 3)', () => {
  const own = { id: 'o' } as Exercise;
  const laid = (beside: string | null, ring = turned(newRing('shelf'), filled)) => turned(ring, { kind: 'exerciseLaid', exercise: own, beside });
  const idsOf = (ring: Ring) => shelfOf(ring).exercises.map(({ id }) => id);
  expect(idsOf(laid('b'))).toEqual(['a', 'b', 'o', 'c', 'd']);
  expect(idsOf(laid(null))).toEqual(['o', 'a', 'b', 'c', 'd']);
  expect(idsOf(laid('b', laid(null)))).toEqual(['o', 'a', 'b', 'c', 'd']);
  const dropped = turned(newRing('shelf'), filled, { kind: 'exerciseDropped', id: 'b' });
  expect([shelfOf(dropped).chosen.map(({ id }) => id), idsOf(dropped)]).toEqual([
    ['a', 'c'],
    ['a', 'b', 'c', 'd'],
  ]);
});

test('minutes belong to one block alone', () => {
  const ring = turned(newRing('session'), filled, { kind: 'minutesChosen', id: 'b', minutes: 0.2 });
  expect(shelfOf(ring).chosen.map(({ minutes }) => minutes)).toEqual([3, 0.2, 3]);
});

test('how it is clicked belongs to one block alone (issue 8: plain properties of a block)', () => {
  const ring = turned(newRing('session'), filled, { kind: 'clickChosen', id: 'b', clicking: { click: { place: 'twoAndFour' } } });
  expect(shelfOf(ring).chosen.map(({ clicking }) => clicking?.click?.place)).toEqual([undefined, 'twoAndFour', undefined]);
});

test('another sticking forgets what was heard of the old one; another tempo does not', () => {
  const heard = turned(newRing('phrase'), { kind: 'takeHeard', heard: heardWith([5]) });
  expect(heard.screen).toBe('heard');
  expect(turned(heard, { kind: 'phraseEdited', change: { tempo: '100' } }).heard).not.toBeNull();
  const other = turned(heard, { kind: 'phraseEdited', change: { sticking: 'RLRR' } });
  expect([other.heard, other.cell, other.shelf]).toEqual([null, null, null]);
});

test('another shape that is meant forgets nothing that was heard, and what is judged anew brings its strokes', () => {
  const heard = turned(newRing('phrase'), { kind: 'takeHeard', heard: heardWith([5]) }, filled);
  const meant = turned(heard, { kind: 'phraseEdited', change: { shapes: ['swing'] } });
  expect(meant.heard).toBe(heard.heard);
  const anew = { ...heardWith([1]), cell: { first: 0, last: 1 } };
  expect(turned(meant, { kind: 'judgedAnew', heard: anew })).toMatchObject({
    heard: anew,
    cell: { first: 0, last: 1 },
    shelf: null,
    screen: 'heard',
  });
});

test('another cell empties the shelf, so that it is laid out anew', () => {
  const ring = turned(newRing('heard'), { kind: 'takeHeard', heard: heardWith([5]) }, filled, { kind: 'cellChosen', cell: { first: 0, last: 1 } });
  expect(ring.shelf).toBeNull();
});

test('a take that gave nothing leaves the drummer where the phrase is, with the reason, until the next try', () => {
  const problem = { code: 'take-silent', severity: 'refused', params: {} } as const;
  const failed = turned(newRing('phrase'), { kind: 'takeMoved', take: { at: 'reading' } }, { kind: 'takeFailed', problems: [problem] });
  expect(failed).toMatchObject({ screen: 'phrase', take: { at: 'idle' }, takeProblems: [problem] });
  expect(turned(failed, { kind: 'takeMoved', take: { at: 'opening' } }).takeProblems).toEqual([]);
});

test('without a recording the whole cycle is the first proposal, and the shelf can be laid out', () => {
  const ring = turned(newRing('phrase'), { kind: 'ownWordGiven', strokeCount: 6 }, { kind: 'shelfAsked' });
  expect(ring).toMatchObject({ screen: 'heard', heard: null, cell: { first: 0, last: 5 }, shelf: 'filling' });
});

test('an exercise starts at the tempo that came out last time, a new one at the tempo of the shelf (JOB.md: judge, and choose the next tempo)', () => {
  const shelf = shelfOf(turned(newRing('shelf'), filled, { kind: 'tempoChosen', tempoBpm: 70 }));
  expect(['a', 'b'].map((id) => startTempoBpm(shelf, id))).toEqual([70, 90]);
});

test('a phrase taken up from the diary brings the strokes that were worked on (JOB.md: any day, today’s session is there)', () => {
  const phrase = { ...emptyPhrase, sticking: 'RLRLKK' };
  const ring = turned(newRing('session'), { kind: 'pointTakenUp', phrase, cell: { first: 4, last: 5 } });
  expect(ring).toMatchObject({ screen: 'session', phrase, cell: { first: 4, last: 5 }, heard: null, shelf: null });
});

test('a probe is asked for and left; who goes elsewhere leaves it, unless its take is still being heard', () => {
  const probe = { kind: 'slow' } as unknown as NonNullable<Ring['probe']>;
  const asked = turned(newRing('heard'), { kind: 'takeHeard', heard: heardWith([5]) }, { kind: 'probeAsked', probe });
  expect(asked.probe).toBe(probe);
  expect(turned(asked, { kind: 'probeAsked', probe: null }).probe).toBeNull();
  expect(turned(asked, { kind: 'went', screen: 'shelf' }).probe).toBeNull();
  expect(turned(asked, { kind: 'takeMoved', take: { at: 'listening' } }, { kind: 'went', screen: 'shelf' }).probe).toBe(probe);
});
