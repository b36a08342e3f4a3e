/** Pictures read back from their SVG: axes, points, intervals and letters stand where the figures say. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayNumber } from '../day.ts';
import { expectedCycle, readContent } from '../exercise/index.ts';
import type { CurvePoint } from '../progress/index.ts';
import { type MadePlace, madeMeasurement } from '../progress/made.case.ts';
import { readSticking } from '../sticking/index.ts';
import { cyclesPicture } from './cycles.ts';
import { all, numberOf, ofClass, pointsOf, type ReadElement, readScale, readSvg } from './readback.case.ts';
import { ringPicture } from './ring.ts';
import { ringRows } from './ringrows.ts';
import { tempoPicture } from './tempoplot.ts';

/** Coordinates are written to hundredths of a pixel; a scale read from two labels doubles that. */
const PX = 0.03;

/** A measurement of a sticking, each place as it is to come out. */
function made(text: string, changes: Readonly<Record<number, Partial<MadePlace>>> = {}, { perBeat = 4, tempoBpm = 96 } = {}) {
  const sticking = readSticking(text).value!;
  const cycle = expectedCycle(readContent(sticking, { perBeat }).value!);
  const places = cycle.strokes.map(({ limb, graceCount }, k) => ({ limb, ...(graceCount > 0 ? { graceMs: 30 } : {}), ...changes[k] }));
  const measurement = madeMeasurement(places, { tempoBpm, perBeat });
  const ring = (widthPx = 358) => readSvg(ringPicture(measurement, cycle, { widthPx, id: 'r', sticking: sticking.text, perBeat }));
  return { measurement, cycle, ring, cycleMs: (60000 * sticking.slotCount) / perBeat / tempoBpm };
}

const lettersOf = (ring: ReadElement) => ofClass(ring, 'picture-letter');
const centreOf = (ring: ReadElement) => numberOf(ring, 'width') / 2;

/** Angle from the top, clockwise, 0 to 2π, and distance from the centre. */
function polar(ring: ReadElement, element: ReadElement): { readonly angle: number; readonly radius: number } {
  const [x, y] = [numberOf(element, 'x') - centreOf(ring), numberOf(element, 'y') - centreOf(ring)];
  return { angle: (Math.atan2(x, -y) + 2 * Math.PI) % (2 * Math.PI), radius: Math.hypot(x, y) };
}

const timesOf = (ring: ReadElement): number => {
  const note = ofClass(ring, 'picture-note')[0]!.text;
  return note.startsWith('Early and late as they came') ? 1 : Number(/drawn (\d+) times/.exec(note)![1]);
};

describe('the stroke ring', () => {
  it('puts each letter at its share of the cycle, moved by its error as many times as the note says (arithmetic on a circle)', () => {
    const biases = [0, 9, -12, 4, 0, -20];
    const { ring, cycleMs } = made('RLRLKK', Object.fromEntries(biases.map((biasMs, k) => [k, { biasMs }])));
    const drawn = ring();
    const times = timesOf(drawn);
    expect(times).toBeGreaterThan(1);
    for (const [k, element] of lettersOf(drawn).entries()) {
      const expected = 2 * Math.PI * (k / 6 + (biases[k]! * times) / cycleMs);
      // A letter stands about 100 px from the centre: hundredths of a pixel are ten-thousandths of a radian.
      expect(Math.cos(polar(drawn, element).angle - expected)).toBeCloseTo(1, 6);
    }
    expect(
      lettersOf(drawn)
        .map(({ text }) => text)
        .join(''),
    ).toBe('RLRLKK');
  });

  it('draws each interval from its lower to its upper end', () => {
    const { ring, cycleMs, measurement } = made('RLRLKK', { 5: { biasMs: -20 } });
    const drawn = ring();
    const shape = ofClass(drawn, 'picture-interval')[5]!;
    const [start] = pointsOf(shape);
    const radius = Math.hypot(...start!);
    const place = measurement.places[5]!;
    const angleOf = (ms: number) => 2 * Math.PI * (5 / 6 + (ms * timesOf(drawn)) / cycleMs);
    expect(start![0] / radius).toBeCloseTo(Math.sin(angleOf(place.biasLowMs!)), 3);
    expect(start![1] / radius).toBeCloseTo(-Math.cos(angleOf(place.biasLowMs!)), 3);
    // The outer arc of the shape ends at its second point: x,y after the first A.
    const end = /A[^A]*?,(-?[\d.]+),(-?[\d.]+)L/.exec(shape.attributes.d!)!.slice(1).map(Number);
    expect(end[0]! / radius).toBeCloseTo(Math.sin(angleOf(place.biasHighMs!)), 3);
    expect(end[1]! / radius).toBeCloseTo(-Math.cos(angleOf(place.biasHighMs!)), 3);
  });

  it('has its notch at the top, where 1 is', () => {
    const drawn = made('RLRLKK').ring();
    const circle = ofClass(drawn, 'picture-ring')[0]!.attributes.d!;
    const dip = /L([\d.]+) ([\d.]+)Z$/.exec(circle)!.slice(1).map(Number);
    const start = /^M([\d.]+) ([\d.]+)/.exec(circle)!.slice(1).map(Number);
    expect(dip[0]).toBe(centreOf(drawn));
    expect(dip[1]!).toBeGreaterThan(start[1]!);
    expect(dip[1]!).toBeLessThan(centreOf(drawn) / 2);
  });

  it('draws a louder stroke larger: 7 dB double it, on its own drum (the ring’s own rule)', () => {
    const { ring } = made('RLRLKK', { 0: { levelDb: -13 }, 4: { levelDb: -2 }, 5: { levelDb: -2 } });
    const sizes = lettersOf(ring()).map((element) => numberOf(element, 'font-size'));
    expect(sizes[0]! / sizes[1]!).toBeCloseTo(32 / 19, 2);
    expect(sizes[4]).toBe(sizes[1]);
  });

  it('hands stand outside the circle, feet inside, and two in one place apart', () => {
    const drawn = made('R+K L K+H R+L', {}, { perBeat: 2 }).ring();
    const at = lettersOf(drawn).map((element) => ({ limb: element.text, ...polar(drawn, element) }));
    const circle = centreOf(drawn) - 62;
    for (const { limb, radius } of at) expect(radius > circle).toBe('RL'.includes(limb));
    const together = at.filter(({ angle }) => Math.abs(angle - Math.PI) < 0.01);
    expect(together.map(({ limb }) => limb).sort()).toEqual(['H', 'K']);
    expect(Math.abs(together[0]!.radius - together[1]!.radius)).toBeGreaterThan(20);
  });

  it('a stroke never heard is an outline where it is written; one missed sometimes has its count beside it', () => {
    const { ring } = made('RLRLKK', { 4: { missed: 20 }, 5: { missed: 3 } });
    const drawn = ring();
    const never = ofClass(drawn, 'picture-never');
    expect(never.map(({ text, attributes }) => [text, attributes.fill])).toEqual([['K', 'none']]);
    expect(polar(drawn, never[0]!).angle).toBeCloseTo((2 * Math.PI * 4) / 6, 3);
    expect(ofClass(drawn, 'picture-count').map(({ text }) => text)).toEqual(['−20', '−3']);
    expect(ofClass(drawn, 'picture-note')[1]!.text).toContain('missed');
  });

  it('grace strokes are small letters of the other hand, before theirs', () => {
    const drawn = made('lR-rL-').ring();
    const graces = ofClass(drawn, 'picture-grace');
    expect(graces.map(({ text }) => text)).toEqual(['l', 'r']);
    expect(polar(drawn, graces[1]!).angle).toBeLessThan(polar(drawn, lettersOf(drawn)[1]!).angle);
  });

  it('letters never lie on each other, with 3 to 24 strokes, whatever they measure (law)', () => {
    const place = fc.record({ biasMs: fc.integer({ min: -20, max: 20 }), levelDb: fc.integer({ min: -24, max: -18 }) });
    fc.assert(
      fc.property(fc.array(place, { minLength: 3, maxLength: 24 }), fc.integer({ min: 280, max: 900 }), (places, widthPx) => {
        const text = places.map((_, k) => (k % 5 === 4 ? 'K' : k % 2 === 0 ? 'R' : 'L')).join('');
        const letters = lettersOf(made(text, { ...places }, { tempoBpm: 60 }).ring(widthPx));
        for (const [k, a] of letters.entries()) {
          for (const b of letters.slice(k + 1)) {
            const apart = Math.hypot(numberOf(a, 'x') - numberOf(b, 'x'), numberOf(a, 'y') - numberOf(b, 'y'));
            // A capital is about .7 of its size in height and width.
            expect(apart).toBeGreaterThan(0.35 * (numberOf(a, 'font-size') + numberOf(b, 'font-size')));
          }
        }
      }),
      { seed: 13, numRuns: 60 },
    );
  });

  it('everything lies inside the picture, at every width', () => {
    for (const widthPx of [100, 280, 390, 900, 2000]) {
      const drawn = made('R+K L R+L K+H', { 0: { levelDb: -5 } }, { perBeat: 2 }).ring(widthPx);
      for (const element of all(drawn).filter(({ name }) => name === 'text')) {
        expect(numberOf(element, 'x')).toBeGreaterThan(0);
        expect(numberOf(element, 'x')).toBeLessThan(numberOf(drawn, 'width'));
        expect(numberOf(element, 'y')).toBeGreaterThan(0);
        expect(numberOf(element, 'y')).toBeLessThan(numberOf(drawn, 'height'));
      }
    }
  });

  it('the table says the same: a row a stroke, graces among them', () => {
    const { measurement, cycle } = made('lR-rL-', { 0: { biasMs: 7, levelDb: -17 }, 1: { levelDb: -20, missed: 2 } });
    const rows = ringRows(measurement, cycle);
    expect(rows.map(({ index, limb, at, biasMs, missed, heard }) => [index, limb, at, biasMs, missed, heard])).toEqual([
      [0, 'R', 0, 7, 0, 20],
      [1, 'L', 0.5, 0, 2, 18],
    ]);
    expect(rows.map(({ volumeDb }) => volumeDb)).toEqual([1.5, -1.5]);
    expect(rows.map(({ graceLeadsMs }) => graceLeadsMs.map(Math.round))).toEqual([[30], [30]]);
  });
});

describe('cycles against milliseconds', () => {
  const { measurement } = made('RLRLKK', { 5: { biasMs: -30, missed: 3 } });
  const drawn = readSvg(cyclesPicture(measurement, { widthPx: 700, id: 'c', perBeat: 4 }));
  const rows = ofClass(drawn, 'picture-row');

  it('each row read back by its own axis gives every error and its cycle', () => {
    const cycleOf = readScale(ofClass(drawn, 'picture-axis-bottom')[0]!, 'x');
    expect(rows).toHaveLength(6);
    for (const [index, row] of rows.entries()) {
      const msOf = readScale(ofClass(row, 'picture-axis-left')[0]!, 'y');
      const points = pointsOf(ofClass(row, 'picture-line')[0]!);
      const played = measurement.strokes.filter((stroke) => stroke.index === index && stroke.errorMs !== null);
      expect(points).toHaveLength(played.length);
      // Fifty pixels of a row hold some eighty milliseconds: hundredths of a pixel are within a tenth of a millisecond.
      for (const [k, { errorMs }] of played.entries()) expect(Math.abs(msOf(points[k]![1]) - errorMs!)).toBeLessThan(0.1);
      for (const [k, { cycle }] of played.entries()) expect(Math.abs(cycleOf(points[k]![0]) - cycle - 1)).toBeLessThan(PX);
    }
  });

  it('a missed stroke is a cross, not a point', () => {
    expect(rows.map((row) => ofClass(row, 'picture-missed').length)).toEqual([0, 0, 0, 0, 0, 3]);
  });

  it('axes are ordinary: at least two labelled ticks each, all alike', () => {
    for (const axis of ofClass(drawn, 'picture-axis-left')) {
      expect(all(axis).filter(({ name }) => name === 'text').length).toBeGreaterThanOrEqual(2);
      expect(
        new Set(
          all(axis)
            .filter(({ name }) => name === 'line')
            .map(({ attributes }) => attributes['stroke-width']),
        ).size,
      ).toBe(1);
    }
  });
});

describe('clean tempo over days', () => {
  const known = (day: string, median: number, half: number, heard = true): CurvePoint => ({
    day,
    runs: 20,
    clean: 17,
    heard,
    estimate: { known: true, median, low90: median - half, high90: median + half, runs: 20 },
  });
  const unknown = (day: string): CurvePoint => ({
    day,
    runs: 3,
    clean: 3,
    heard: true,
    estimate: { known: false, why: { code: 'clean-tempo-few-runs', params: { runs: 3, needed: 8 } } },
  });
  const points = [
    unknown('2024-12-28'),
    known('2024-12-30', 72.3, 6),
    known('2025-01-02', 74.1, 4),
    known('2025-01-18', 83.6, 2.5, false),
    known('2025-02-03', 88, 2),
  ];
  const drawn = readSvg(
    tempoPicture(points, { widthPx: 900, id: 't', perBeat: 4, goalBpm: 96, changes: [{ day: '2025-01-10', label: 'heavier sticks' }] }),
  );
  const bpmOf = readScale(ofClass(drawn, 'picture-axis-left')[0]!, 'y');
  const months: Readonly<Record<string, string>> = { Dec: '2024-12', Jan: '2025-01', Feb: '2025-02' };
  const dayOf = readScale(ofClass(drawn, 'picture-axis-bottom')[0]!, 'x', (label) => {
    const [day, month] = label.split(' ');
    return dayNumber(`${months[month!]}-${day!.padStart(2, '0')}`);
  });

  it('marks and bars read back by the axes give the days, medians and intervals', () => {
    const marks = ofClass(drawn, 'picture-point');
    const expected = points.flatMap(({ day, estimate }) => (estimate.known ? [{ day, ...estimate }] : []));
    expect(marks).toHaveLength(expected.length);
    for (const [k, { day, median, low90, high90 }] of expected.entries()) {
      const [circle] = all(marks[k]!).filter(({ name }) => name === 'circle');
      const ys = all(marks[k]!).flatMap((element) => (element.name === 'line' ? [numberOf(element, 'y1'), numberOf(element, 'y2')] : []));
      expect(Math.abs(dayOf(numberOf(circle!, 'cx')) - dayNumber(day))).toBeLessThan(PX);
      expect(Math.abs(bpmOf(numberOf(circle!, 'cy')) - median)).toBeLessThan(PX);
      expect(Math.abs(bpmOf(Math.max(...ys)) - low90)).toBeLessThan(PX);
      expect(Math.abs(bpmOf(Math.min(...ys)) - high90)).toBeLessThan(PX);
    }
  });

  it('the tempo wanted, the change of set-up and the day with too little stand where they belong', () => {
    const [wanted] = all(ofClass(drawn, 'picture-wanted')[0]!);
    expect(Math.abs(bpmOf(numberOf(wanted!, 'y1')) - 96)).toBeLessThan(PX);
    const [change] = all(ofClass(drawn, 'picture-change')[0]!);
    expect(Math.abs(dayOf(numberOf(change!, 'x1')) - dayNumber('2025-01-10'))).toBeLessThan(PX);
    const [little] = ofClass(drawn, 'picture-unknown');
    expect(Math.abs(dayOf(numberOf(little!, 'x1')) - dayNumber('2024-12-28'))).toBeLessThan(PX);
  });

  it('a mark that rests on the player’s word is open', () => {
    expect(ofClass(drawn, 'picture-word').map(({ attributes }) => attributes.fill)).toEqual(['none']);
    expect(ofClass(drawn, 'picture-heard')).toHaveLength(3);
  });

  it('dates are days apart, never overlapping, the year where it is new', () => {
    for (const widthPx of [280, 390, 900]) {
      const narrow = readSvg(tempoPicture(points, { widthPx, id: 't', perBeat: 4 }));
      const labels = all(ofClass(narrow, 'picture-axis-bottom')[0]!).filter(({ name }) => name === 'text');
      const xs = labels.map((label) => numberOf(label, 'x'));
      expect(labels[0]!.text).toBe('28 Dec 2024');
      expect(labels.filter(({ text }) => text.includes('2025'))).toHaveLength(1);
      for (const [k, x] of xs.slice(1).entries()) expect(x - xs[k]!).toBeGreaterThan(70);
    }
  });

  it('without any clean tempo there are no axes and no invented line, only the sentence', () => {
    const empty = readSvg(tempoPicture([unknown('2024-12-28')], { widthPx: 390, id: 't', perBeat: 4 }));
    expect(ofClass(empty, 'picture-axis')).toEqual([]);
    expect(
      all(empty)
        .filter(({ name }) => name === 'text')
        .map(({ text }) => text),
    ).toEqual(['Too little yet to tell a clean tempo.']);
  });
});

describe('every picture', () => {
  const { measurement, cycle } = made('>R(L)RLKK', { 4: { missed: 1 } });
  const pictures = {
    ring: ringPicture(measurement, cycle, { widthPx: 390, id: 'a', sticking: '>R(L)RLKK', perBeat: 4 }),
    cycles: cyclesPicture(measurement, { widthPx: 390, id: 'b', perBeat: 4 }),
    tempo: tempoPicture([], { widthPx: 390, id: 'c', perBeat: 4 }),
  };

  it.each(Object.entries(pictures))('%s: named for those who do not see it (WAI-ARIA role img), no style attribute, currentColor only', (_, text) => {
    const root = readSvg(text);
    expect(root.attributes.role).toBe('img');
    const [titleId, descId] = root.attributes['aria-labelledby']!.split(' ');
    const named = Object.fromEntries(all(root).flatMap(({ attributes, text: said }) => (attributes.id ? [[attributes.id, said]] : [])));
    expect(named[titleId!]!.length).toBeGreaterThan(5);
    expect(named[descId!]!.length).toBeGreaterThan(20);
    const colours = [root, ...all(root)].flatMap(({ attributes }) => [attributes.fill, attributes.stroke, attributes.style]);
    expect([...new Set(colours)].filter((value) => value !== undefined).sort()).toEqual(
      text === pictures.tempo ? ['currentColor'] : ['currentColor', 'none'],
    );
  });

  it('text from outside is escaped', () => {
    expect(readSvg(pictures.ring).children[0]!.text).toContain('>R(L)RLKK');
    const label = '<script>"&';
    const point: CurvePoint = {
      day: '2025-01-01',
      runs: 9,
      clean: 8,
      heard: true,
      estimate: { known: true, median: 80, low90: 75, high90: 85, runs: 9 },
    };
    const drawn = readSvg(tempoPicture([point], { widthPx: 390, id: 'c', perBeat: 4, changes: [{ day: '2025-01-01', label }] }));
    expect(all(drawn).some(({ text }) => text === label)).toBe(true);
  });

  it('the same input gives the same bytes', () => {
    expect(ringPicture(measurement, cycle, { widthPx: 390, id: 'a', sticking: '>R(L)RLKK', perBeat: 4 })).toBe(pictures.ring);
  });
});
