/** Plots read back from their SVG: axes, points and intervals stand where the figures say; and what holds for every picture. */
import { describe, expect, it } from 'vitest';
import { dayNumber } from '../day.ts';
import type { CurvePoint } from '../progress/index.ts';
import { cyclesPicture } from './cycles.ts';
import { made } from './made.case.ts';
import { all, numberOf, ofClass, pointsOf, readScale, readSvg } from './readback.case.ts';
import { ringPicture } from './ring.ts';
import { tempoPicture } from './tempoplot.ts';

/** Coordinates are written to hundredths of a pixel; a scale read from two labels doubles that. */
const PX = 0.03;

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
