/** Short takes beside the first that change one thing, and what they do to what was found. */
import { type ExerciseContent, expectedCycle } from '@evenhand/core/exercise';
import {
  cellToWorkOn,
  type Finding,
  findingsOf,
  type Probe,
  type ProbeKind,
  type ProbeStatement,
  proposeProbes,
  ruledOut,
  type TempoZoneStatement,
  tempoZones,
} from '@evenhand/core/finding';
import type { Measurement, MeasurementProblem } from '@evenhand/core/measurement';
import { firstAndLast, type ThenAndNow } from '@evenhand/core/progress';
import type { HeardPhrase, HeardProbe } from './heardphrase.ts';
import { contentOf, type Phrase, readingOf, wantedOf } from './phrase.ts';

/** At most so many probes follow a take. @source [JobBrief] up to six */
const MOST_PROBES = 6;
/** How many are offered at a time. */
const OFFERED = 2;

const contentOfHeard = ({ phrase }: HeardPhrase): ExerciseContent | null => {
  const sticking = readingOf(phrase).value;
  return sticking && contentOf(phrase, sticking);
};

const furtherOf = (probes: readonly HeardProbe[]) =>
  probes.map(({ probe, measurement }) => ({ measurement, cycle: expectedCycle(probe.content), standsFor: probe.standsFor }));

/** Probes worth playing next; none when nothing was found or six were played. */
export function offeredProbes(heard: HeardPhrase): readonly Probe[] {
  const content = contentOfHeard(heard);
  const probes = heard.probes ?? [];
  if (!content || heard.findings[0]?.code !== 'cause-fits' || probes.length >= MOST_PROBES) return [];
  const played: ProbeKind[] = probes.map(({ probe }) => probe.kind);
  const asked = { cycle: expectedCycle(content), content, ...wantedOf(heard.phrase) };
  return proposeProbes(heard.measurement, { ...asked, further: furtherOf(probes), played, most: OFFERED });
}

/** Tempo of a probe, in whole beats per minute. */
export const probeTempoBpm = ({ tempoShare }: Probe, { measurement }: HeardPhrase): number => Math.round(measurement.tempoBpm * tempoShare);

/** What a probe asks for, to be said. */
export const askOf = (probe: Probe, heard: HeardPhrase): ProbeStatement => ({
  code: 'probe-asked',
  params: { kind: probe.kind, sticking: probe.content.sticking, tempoBpm: probeTempoBpm(probe, heard), perBeat: probe.content.perBeat },
});

/** What was heard, with one more probe: the findings are weighed anew over all takes. */
export function withProbe(heard: HeardPhrase, probe: Probe, measurement: Measurement): HeardPhrase {
  const content = contentOfHeard(heard);
  if (!content) return heard;
  const before = heard.probes ?? [];
  const all = [...before, { probe, measurement, ruledOut: [] }];
  const findings = judged(heard, content, all);
  const out = ruledOut(heard.findings[0]!, findings[0]!);
  return { ...heardOf({ ...heard, findings }), probes: [...before, { probe, measurement, ruledOut: out }] };
}

/** What changes between the first seconds and the last, in the longest take of the phrase there is: the probe made for it, else the take itself. Null: too little. */
export function firstLastOf(heard: HeardPhrase): ThenAndNow | null {
  const content = contentOfHeard(heard);
  const long = heard.probes?.find(({ probe }) => probe.kind === 'first-last');
  return content && firstAndLast(long?.measurement ?? heard.measurement, expectedCycle(content));
}

/** A take as the heard screen has it: with the strokes that its findings propose to work on. */
export const heardOf = (heard: Omit<HeardPhrase, 'cell'>): HeardPhrase => ({
  ...heard,
  cell: cellToWorkOn(heard.findings, heard.measurement.places.length),
});

/** What was heard, judged against another shape: nothing needs to be played again. */
export function judgedAnew(heard: HeardPhrase, phrase: Phrase): HeardPhrase {
  const meant = { ...heard, phrase };
  const content = contentOfHeard(meant);
  return content ? heardOf({ ...meant, findings: judged(meant, content, heard.probes ?? []) }) : heard;
}

function judged({ measurement, phrase, problems }: HeardPhrase, content: ExerciseContent, probes: readonly HeardProbe[]): readonly Finding[] {
  const options = { cycle: expectedCycle(content), problems: problems as readonly MeasurementProblem[], ...wantedOf(phrase) };
  return findingsOf(measurement, options, furtherOf(probes));
}

/** Where in tempo it shows, of the takes of this phrase that were just heard; none of one tempo. */
export function zonesOf(heard: HeardPhrase): readonly TempoZoneStatement[] {
  const content = contentOfHeard(heard);
  if (!content) return [];
  const cycle = expectedCycle(content);
  return tempoZones(
    [...(heard.earlier ?? []), heard.measurement].map((measurement) => ({ measurement, cycle })),
    { perBeat: content.perBeat, shapes: heard.phrase.shapes },
  ).slice(0, 1);
}
