import { expect, test } from 'vitest';
import { say } from '../words/index.ts';
import {
  beyondReach,
  burstsOf,
  demandsOf,
  distanceCm,
  drumNamed,
  type LoopStroke,
  placeOfDrum,
  reachSoFar,
  toldBeyond,
  usualReach,
} from './index.ts';

/** `R snare 0.1` a stroke each. */
const loop = (text: string): readonly LoopStroke[] =>
  text.split(', ').map((each) => {
    const [limb, drum, time] = each.split(' ');
    return { limb: limb as 'R', drum: drum!, timeSec: Number(time) };
  });

test.each([
  { says: 'arithmetic: (2 − 1) / 0.1 s', text: 'K kick 0, K kick 0.1', lengthSec: 1, limb: 'K', burst: 2, perSec: 10 },
  {
    says: 'arithmetic: three strokes over 0.1 s and, round the end of the loop, 0.9 s',
    text: 'K kick 0, K kick 0.1',
    lengthSec: 1,
    limb: 'K',
    burst: 3,
    perSec: 2,
  },
  { says: 'arithmetic: the burst runs over the end of the loop', text: 'R snare 0.95, R snare 0.05', lengthSec: 1, limb: 'R', burst: 2, perSec: 10 },
  { says: 'FACTS.md 2: 16ths at 75 are 5 Hz inside a double', text: 'L snare 0, L snare 0.2', lengthSec: 0.8, limb: 'L', burst: 2, perSec: 5 },
  { says: 'arithmetic: one stroke a second goes on at one a second', text: 'L snare 0', lengthSec: 1, limb: 'L', burst: 8, perSec: 1 },
  { says: 'arithmetic: nothing played, nothing asked', text: 'L snare 0', lengthSec: 1, limb: 'R', burst: 2, perSec: 0 },
] as const)('$says', ({ text, lengthSec, limb, burst, perSec }) => {
  // Tolerance: tenths of a second in binary.
  expect(demandsOf(loop(text), lengthSec)[limb][burst]).toBeCloseTo(perSec, 9);
});

test.each([
  { says: 'FACTS.md 2: kick pairs up to 13.3 a second were played', limb: 'K', burst: 2, least: 13.3, most: 20 },
  { says: 'Fujii 2009: no hand goes on faster than 10 a second, trained ones faster than 7', limb: 'R', burst: 8, least: 7, most: 10 },
  { says: 'FACTS.md 2: feet in general go on at 4 to 5', limb: 'K', burst: 8, least: 5, most: 8 },
] as const)('$says', ({ limb, burst, least, most }) => {
  const perSec = usualReach()[limb][burst];
  expect(perSec >= least && perSec <= most).toBe(true);
});

test('law: a shorter burst is never slower, the stronger side never slower than the other', () => {
  for (const side of ['R', 'L'] as const) {
    const reach = usualReach(side);
    for (const limb of ['R', 'L', 'K', 'H'] as const) {
      const { 2: two, 3: three, 4: four, 8: on } = reach[limb];
      expect([two, three, four, on]).toEqual([two, three, four, on].sort((a, b) => b - a));
    }
    expect(reach[side][2]).toBeGreaterThan(reach[side === 'R' ? 'L' : 'R'][2]);
  }
});

test('yours so far: what was not clean lowers the usual figure, what was clean raises it, and nothing else changes', () => {
  const played = (burst: 2 | 3 | 4 | 8, perSec: number, clean: boolean) => ({ limb: 'K' as const, burst, perSec, clean });
  const usual = usualReach();
  expect(reachSoFar([])).toEqual(usual);
  // Slow and clean says nothing about fast.
  expect(reachSoFar([played(2, 4, true)])).toEqual(usual);
  const slow = reachSoFar([played(2, 6, true), played(2, 8, false)]);
  expect(slow.K).toEqual({ 2: 8, 3: 8, 4: usual.K[4], 8: usual.K[8] });
  expect(slow.R).toEqual(usual.R);
  expect(reachSoFar([played(2, 15, true)]).K[2]).toBeGreaterThan(15);
  // Four at 12 a second have two at 12 a second in them; what failed slower than that was a bad day.
  expect(reachSoFar([played(4, 12, true), played(2, 9, false)]).K[2]).toBeGreaterThan(12);
});

test('a loop that was played tells of every burst in it', () => {
  const told = burstsOf(loop('K kick 0, K kick 0.1'), 1, true);
  expect(told.map(({ limb, burst, perSec }) => `${limb} ${burst} ${perSec.toFixed(2)}`)).toEqual(['K 2 10.00', 'K 3 2.00', 'K 4 2.73', 'K 8 2.26']);
});

test.each([
  { says: 'within: two kicks at 10 a second', text: 'K kick 0, K kick 0.1', kinds: [] },
  { says: 'two kicks at 20 a second', text: 'K kick 0, K kick 0.05', kinds: ['burst'] },
  { says: 'snare to floor tom in 50 ms', text: 'R snare 0, R floor-tom 0.07', kinds: ['travel'] },
  { says: 'snare to floor tom in a quarter of a second', text: 'R snare 0, R floor-tom 0.25', kinds: [] },
  { says: 'right on the hi-hat over the left on the snare', text: 'R hi-hat 0, L snare 0', kinds: [] },
  { says: 'right on the hi-hat, left on the floor tom', text: 'R hi-hat 0, L floor-tom 0', kinds: ['crossed'] },
  { says: 'the same half a second apart', text: 'R hi-hat 0, L floor-tom 0.5', kinds: [] },
  { says: 'left on the hi-hat, right on the floor tom: arms apart', text: 'L hi-hat 0, R floor-tom 0', kinds: [] },
  { says: 'a drum nobody knows the place of', text: 'R djembe 0, R floor-tom 0.1, L hi-hat 0', kinds: [] },
])('common practice, no source: $says', ({ text, kinds }) => {
  expect(beyondReach(loop(text), 2, { reach: usualReach() }).map(({ kind }) => kind)).toEqual(kinds);
});

test('a kit for left-handers is the same seen in a mirror: ways as long, crossings of the other hand', () => {
  expect(placeOfDrum('floor-tom', 'L')!.xCm).toBe(-placeOfDrum('floor-tom', 'R')!.xCm);
  expect(beyondReach(loop('L hi-hat 0, R floor-tom 0'), 2, { reach: usualReach('L'), side: 'L' })).toEqual([
    { kind: 'crossed', right: 'floor-tom', left: 'hi-hat' },
  ]);
  expect(beyondReach(loop('R hi-hat 0, L floor-tom 0'), 2, { reach: usualReach('L'), side: 'L' })).toEqual([]);
});

test('law: ways are the same there and back and none is from a drum to itself', () => {
  const names = ['snare', 'high-tom', 'mid-tom', 'floor-tom', 'hi-hat', 'ride', 'crash'];
  for (const from of names) {
    expect(distanceCm(from, from)).toBe(0);
    for (const to of names) expect(distanceCm(from, to)).toBe(distanceCm(to, from));
    expect(drumNamed(from).name).toBe(from);
  }
});

test.each([
  { says: 'nothing heard of the foot', played: [], words: /^Faster than is usual at first: three kicks in a row, 10 a second; usual is 9\.0\.$/ },
  {
    says: 'a foot that was heard',
    played: [{ limb: 'K', burst: 3, perSec: 8, clean: false }],
    words: /^Faster than yours so far: three kicks in a row, 10 a second; so far 8\.0\.$/,
  },
] as const)('DESIGN.md, kit: never “impossible”, and whose figure it is: $says', ({ played, words }) => {
  const strokes = [0, 0.1, 0.2].map((timeSec) => ({ limb: 'K' as const, drum: 'kick', timeSec }));
  const beyond = beyondReach(strokes, 2, { reach: reachSoFar(played) });
  const said = beyond.map((each) => say(toldBeyond(each, played)));
  expect(said.some((sentence) => words.test(sentence))).toBe(true);
});
