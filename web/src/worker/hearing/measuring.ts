/** Holds a heard take against what was to be played. */

import { findingsOf } from '@evenhand/core/finding';
import { measureSpans } from '@evenhand/core/measurement';
import type { Reading } from '@evenhand/core/problem';
import type { HeardTake, MeasuredTake, MeasureRequest } from '../protocol.ts';

/** @param heard what became of the take when it was heard; undefined for one that this Worker never heard. */
export function measureHeard(heard: Reading<HeardTake> | undefined, ask: MeasureRequest): Reading<MeasuredTake> {
  if (!heard) return { value: null, problems: [{ code: 'take-not-stored', severity: 'refused', params: { takeId: ask.takeId } }] };
  if (!heard.value) return { value: null, problems: heard.problems };
  const { candidates, durationSec, loudness, latencySec = 0 } = heard.value;
  const { cycle, tempoBpm, clicksSec = [], spans = [{ fromSec: 0, toSec: durationSec, fromBeat: 0 }], shapes = [], fill = [] } = ask;
  const { value, problems } = measureSpans(candidates, cycle, {
    tempoBpm,
    // What is played to a click arrives as much later as the click itself would.
    clickTimesSec: clicksSec.map((sec) => sec + latencySec),
    spans: clicksSec.length > 0 ? spans.map((span) => ({ ...span, fromSec: span.fromSec + latencySec, toSec: span.toSec + latencySec })) : spans,
    ...(loudness ? { loudness } : {}),
  });
  if (!value) return { value: null, problems };
  // Unevenness needs no latency; whether all comes ahead of the click or behind it cannot be told without.
  const offsetMs = heard.value.latencySec === undefined ? null : value.offsetMs;
  return { value: { measurement: { ...value, offsetMs }, findings: findingsOf(value, { cycle, problems, shapes, fill }) }, problems };
}
