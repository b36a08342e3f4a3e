/** Pad work that takes help away: longer and longer without a rest, and on something soft that gives no rebound back. */
import type { Family } from './exercise.ts';
import type { Idea } from './idea.ts';
import { hitsIn, isFoot, type Line, mapHits, repeated, rest, slotsOf } from './line.ts';
import { LONG_RUNS, SOFT_DRUM } from './parameters.ts';
import { homeOf, meterFor, type Phrase } from './phrase.ts';

const family: Family = 'pad';

/** Long runs of the phrase, and the phrase on a soft surface and back. */
export const staminaIdeas = (phrase: Phrase): readonly Idea[] => [...longRuns(phrase), ...softSurface(phrase)];

/** Once through and a rest, twice, four times: as long as it stays as good as the first. */
function longRuns(phrase: Phrase): readonly Idea[] {
  const { line, content, sticking } = phrase;
  const parts = LONG_RUNS.map((times) => {
    const run = repeated(line, times);
    const slots = slotsOf(run);
    return [...run, ...rest(Math.ceil((slots + 1) / content.perBeat) * content.perBeat - slots)];
  });
  const made = parts.flat();
  const params = { sticking: sticking.text, times: LONG_RUNS };
  const meter = meterFor(phrase, slotsOf(made));
  return [{ family, line: made, meter, turn: 58, title: { code: 'title-long-runs', params }, reason: { code: 'reason-long-runs', params } }];
}

/** The hands on a folded towel, then where they were. */
function softSurface(phrase: Phrase): readonly Idea[] {
  const { line, sticking, shape } = phrase;
  if (!hitsIn(line).some(({ limb, inCell }) => !isFoot(limb) && (inCell || !shape.hands))) return [];
  const onSoft: Line = mapHits(line, (each) => (isFoot(each.limb) ? each : { ...each, drums: each.drums.map(() => SOFT_DRUM) }));
  const { meter, block } = homeOf(phrase, onSoft);
  const made = [...block, ...homeOf(phrase, line).block];
  const params = { sticking: sticking.text, surface: SOFT_DRUM };
  const turn = shape.hands ? 36 : 82;
  return [{ family, line: made, meter, turn, title: { code: 'title-soft-surface', params }, reason: { code: 'reason-soft-surface', params } }];
}
