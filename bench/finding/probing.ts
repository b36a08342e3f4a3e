/** Probes of this bench: what the simulated drummer does wrong in a take that changed one thing, by rules written here apart from what the finding knows. */
import { expectedCycle } from '../../core/src/exercise/index.ts';
import { type Finding, type FurtherTake, findingsOf, type Probe, type ProbeKind, proposeProbes } from '../../core/src/finding/index.ts';
import type { Measurement } from '../../core/src/measurement/index.ts';
import { contentOf, type Play, UNIT } from './plays.ts';
import { CYCLES, type FaultyTake, measurementOf, PROBE_SEED, TEMPO_BPM } from './takes.ts';

/** A probe is about twenty seconds. @source JOB.md */
const PROBE_SEC = 20;
const MOST = 6;

type Stroke = ReturnType<typeof expectedCycle>['strokes'][number];
type Rule = (row: { readonly strokes: readonly Stroke[]; readonly at: number; readonly standsFor: number | null; readonly play: Play }) => boolean;

const before = (strokes: readonly Stroke[], at: number): Stroke => strokes.at(at - 1)!;
const after = (strokes: readonly Stroke[], at: number): Stroke => strokes[(at + 1) % strokes.length]!;
const beatOf = ({ beat }: Stroke): number => beat.num / beat.den;

/** Who is at fault: by cause, for any sticking. */
const RULES: Readonly<Record<string, Rule>> = {
  place: ({ standsFor, play }) => standsFor === play.touched[0],
  'second-of-double': ({ strokes, at }) => strokes[at]!.limb === 'R' && before(strokes, at).limb === 'R',
  'first-of-double': ({ strokes, at }) => strokes[at]!.limb === 'L' && after(strokes, at).limb === 'L' && before(strokes, at).limb !== 'L',
  limb: ({ strokes, at, play }) => strokes[at]!.limb === (play.phrase.sticking.includes('K') ? 'K' : 'L'),
  'after-limb': ({ strokes, at }) => strokes[at]!.limb !== 'K' && before(strokes, at).limb === 'K',
  'into-accent': ({ strokes, at }) => !strokes[at]!.accent && after(strokes, at).accent,
  'out-of-accent': ({ strokes, at }) => !strokes[at]!.accent && before(strokes, at).accent,
  grace: ({ strokes, at }) => strokes[at]!.graceCount > 0,
  together: ({ strokes, at }) => strokes[at]!.limb === 'K' && strokes.some((other, i) => i !== at && beatOf(other) === beatOf(strokes[at]!)),
};

/** The findings after up to six probes; as they were when none is worth playing or the cause is no matter of sticking. */
export function afterProbes({ play, kind, units, take }: FaultyTake, measurement: Measurement): { findings: Finding[]; probeCount: number } {
  const content = contentOf(play.phrase);
  const options = { cycle: take.cycle, content };
  let findings = findingsOf(measurement, options);
  const further: FurtherTake[] = [];
  const played: ProbeKind[] = [];
  while (played.length < MOST && doubtful(findings)) {
    const [probe] = proposeProbes(measurement, { ...options, further, played, most: 1 });
    const rule = RULES[play.cause];
    if (!probe || probe.gain === 0 || !rule) break;
    played.push(probe.kind);
    const heard = measurementOf(probeTake({ play, kind, units, take }, probe, rule));
    if (heard) further.push({ measurement: heard, cycle: expectedCycle(probe.content), standsFor: probe.standsFor });
    findings = findingsOf(measurement, options, further);
  }
  return { findings, probeCount: played.length };
}

const doubtful = ([first]: readonly Finding[]): boolean =>
  first?.code === 'cause-fits' && (first.rivals ?? []).length + (first.ties ?? []).length > 0;

function probeTake({ play, kind, units, take }: FaultyTake, probe: Probe, rule: Rule): FaultyTake['take'] {
  const cycle = expectedCycle(probe.content);
  const sign = take.faults[0]?.earlyMs === undefined ? 1 : Math.sign(take.faults[0].earlyMs);
  const faults = cycle.strokes.flatMap((stroke, at) => {
    if (!rule({ strokes: cycle.strokes, at, standsFor: probe.standsFor[at] ?? null, play })) return [];
    const earlyMs = kind === 'time' || kind === 'both' ? { earlyMs: sign * units * UNIT.ms } : {};
    return [{ index: stroke.index, ...earlyMs, ...(kind === 'volume' || kind === 'both' ? { softDb: units * UNIT.db } : {}) }];
  });
  const cycleSec = (60 * cycle.lengthBeats.num) / cycle.lengthBeats.den / TEMPO_BPM;
  return { ...take, cycle, faults, cycles: Math.min(CYCLES, Math.round(PROBE_SEC / cycleSec)), seed: PROBE_SEED + take.seed };
}
