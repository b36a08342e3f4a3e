/** A sticking measured and drawn, for tests that read pictures back. */
import { expectedCycle, readContent } from '../exercise/index.ts';
import { type MadePlace, madeMeasurement } from '../progress/made.case.ts';
import { readSticking } from '../sticking/index.ts';
import { readSvg } from './readback.case.ts';
import { ringPicture } from './ring.ts';

/** A measurement of a sticking, each place as it is to come out. */
export function made(text: string, changes: Readonly<Record<number, Partial<MadePlace>>> = {}, { perBeat = 4, tempoBpm = 96 } = {}) {
  const sticking = readSticking(text).value!;
  const cycle = expectedCycle(readContent(sticking, { perBeat }).value!);
  const places = cycle.strokes.map(({ limb, graceCount }, k) => ({ limb, ...(graceCount > 0 ? { graceMs: 30 } : {}), ...changes[k] }));
  const measurement = madeMeasurement(places, { tempoBpm, perBeat });
  const ring = (widthPx = 358) => readSvg(ringPicture(measurement, cycle, { widthPx, id: 'r', sticking: sticking.text, perBeat }));
  return { measurement, cycle, ring, cycleMs: (60000 * sticking.slotCount) / perBeat / tempoBpm };
}
