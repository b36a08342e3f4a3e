/** The stroke ring read back from its SVG: letters, intervals and marks stand where the figures say. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { made } from './made.case.ts';
import { all, numberOf, ofClass, pointsOf, type ReadElement } from './readback.case.ts';
import { ringRows } from './ringrows.ts';

const lettersOf = (ring: ReadElement) => ofClass(ring, 'picture-letter');
const centreOf = (ring: ReadElement) => numberOf(ring, 'width') / 2;

/** Angle from the top, clockwise, 0 to 2π, and distance from the centre. */
function polar(ring: ReadElement, element: ReadElement): { readonly angle: number; readonly radius: number } {
  const [x, y] = [numberOf(element, 'x') - centreOf(ring), numberOf(element, 'y') - centreOf(ring)];
  return { angle: (Math.atan2(x, -y) + 2 * Math.PI) % (2 * Math.PI), radius: Math.hypot(x, y) };
}

const timesOf = (ring: ReadElement): number => {
  const note = ofClass(ring, 'picture-note')[0]!.text;
  return note.startsWith('Early and late as they came') ? 1 : Number(/enlarged (\d+) times/.exec(note)![1]);
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
    expect(graces.map(({ text }) => text)).toEqual(['ℓ', 'r']);
    expect(polar(drawn, graces[1]!).angle).toBeLessThan(polar(drawn, lettersOf(drawn)[1]!).angle);
  });

  it('how often a stroke was missed stands beyond its letter, clear of its graces', () => {
    const drawn = made('llR-rrL-', { 1: { missed: 4 } }).ring();
    const [count] = ofClass(drawn, 'picture-count');
    const letter = lettersOf(drawn)[1]!;
    expect(polar(drawn, count!).angle).toBeCloseTo(polar(drawn, letter).angle, 3);
    expect(polar(drawn, count!).radius).toBeGreaterThan(polar(drawn, letter).radius);
    const nearest = Math.min(
      ...ofClass(drawn, 'picture-grace').map((grace) =>
        Math.hypot(numberOf(grace, 'x') - numberOf(count!, 'x'), numberOf(grace, 'y') - numberOf(count!, 'y')),
      ),
    );
    expect(nearest).toBeGreaterThan(12);
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
