/** How late each kind of drum is heard, whether a correction by the kind that the ear tells would help, and how often it tells it right. `npm run bench:ear:drums` */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import type { ExpectedCycle } from '../../core/src/exercise/index.ts';
import type { MeasureOptions } from '../../core/src/measurement/index.ts';
import { medianInterval } from '../../core/src/measurement/statistics.ts';
import { median } from '../../core/src/quantiles.ts';
import { type DrumKind, type DrumOdds, type Heard, hear } from '../../core/src/stroke/index.ts';
import { cycleOfTruth, type Truth as ListenTruth } from '../listen/takes.ts';
import { toldDetections } from './detectors.ts';
import { drumTakes } from './drumtakes.ts';
import { constantMs, filledMisses, type Judged, type Outcome, outcomesOf, scoreWindow, slotBiasMs } from './scorer.ts';
import { readAnnotatedTakes, referenceTakes } from './takes.ts';

/** Strokes that a bias is told of: sure of their time, and hardly masked. */
const SURE = 0.5;
const PLAIN_SMR_DB = 6;
/** What a bias has to pass to be worth a word: the goal of slot bias. */
const GOAL_MS = 0.3;
/** The take whose masked second strokes hold most of the slot bias. */
const HARDEST = 'D12';
/** Fewest strokes that a correction is learnt from. */
const FEWEST = 20;

const KINDS: readonly DrumKind[] = ['kick', 'tom', 'snare', 'pad', 'cymbal'];

/** Odds that speak for no drum. */
const SILENT_HINT: DrumOdds = { kick: 0.2, tom: 0.2, snare: 0.2, pad: 0.2, cymbal: 0.2 };

/** What the ear should call a drum of the truth; hand drums and a stick laid across have no kind of their own. */
const RIGHT: Readonly<Record<string, DrumKind>> = {
  kick: 'kick',
  snare: 'snare',
  jsnare: 'snare',
  tom: 'tom',
  'high-tom': 'tom',
  'floor-tom': 'tom',
  pad: 'pad',
  'hi-hat': 'cymbal',
  'hi-hat-foot': 'cymbal',
  ride: 'cymbal',
  crash: 'cymbal',
};

/** A take as heard: `detections` are the ear's strokes, told nothing of the sticking. */
interface Take extends Judged {
  readonly heard: Heard;
  readonly cycle: ExpectedCycle;
  readonly options: MeasureOptions;
  readonly detections: Heard['strokes'];
}

const annotated = readAnnotatedTakes(referenceTakes);
if (annotated) bench(annotated.map(developmentTake), drumTakes().map(madeTake));
else console.log('The annotated takes (../shared/reference/takes) are not there: nothing to measure.');

function developmentTake({ truth, take }: NonNullable<typeof annotated>[number]): Take {
  const { tempoBpm, durationSec, clicks } = truth as ListenTruth;
  const heard = hear(take, { clickTimesSec: clicks });
  const options = { tempoBpm, durationSec, clickTimesSec: clicks };
  return { truth, heard, cycle: cycleOfTruth(truth as ListenTruth), options, detections: heard.strokes };
}

function madeTake({ truth, take, cycle, tempoBpm, durationSec }: ReturnType<typeof drumTakes>[number]): Take {
  const heard = hear(take);
  return { truth, heard, cycle, options: { tempoBpm, durationSec }, detections: heard.strokes };
}

function bench(development: readonly Take[], made: readonly Take[]): void {
  const text = [
    '# How the ear hears each kind of drum',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model.trim()}, Node ${process.versions.node}, load ${loadavg()[0]!.toFixed(0)}. Made by \`npm run bench:ear:drums\`, the ear told nothing of the sticking. Development takes D01–D12; made takes: our own simulated drums (\`drumtakes.ts\`), a hand drum with a kick in each, dry and in a room, to which nothing was fitted and from which nothing about real drums follows.`,
    '',
    '## Bias per kind of drum',
    '',
    `Strokes of confidence ≥ ${SURE} and smr ≥ ${PLAIN_SMR_DB} dB, after one constant is taken out (development ${ms(constantMs(development))} ms, made ${ms(constantMs(made))} ms). Median error, its 95 % interval from order statistics (strokes of one take are not independent, so where takes are few the truth is less sure than that), median per take from least to most.`,
    '',
    ...biasTable('development', development),
    '',
    ...biasTable('made', made),
    '',
    '## Would a correction per kind help?',
    '',
    `Each kind's median error over the strokes of confidence ≥ ${SURE} (at least ${FEWEST}) of the other takes is taken off the strokes of a take; slot bias of the sure, ms, over all takes so judged. "By the ear" goes by the kind that the ear tells, "by truth" by the drum that was played, which no ear knows: what could be had at most.`,
    '',
    '| takes | as heard | corrected by the ear | corrected by truth |',
    '| --- | --- | --- | --- |',
    correctionRow('development, learnt on eleven, judged on the twelfth', development, (take) => development.filter((other) => other !== take)),
    correctionRow(
      `of them all but ${HARDEST}`,
      development.filter(({ truth }) => !truth.id.startsWith(HARDEST)),
      (take) => development.filter((other) => other !== take),
    ),
    ...development
      .filter(mixed)
      .map((take) => correctionRow(`of them ${take.truth.id.slice(0, 3)}`, [take], () => development.filter((other) => other !== take))),
    correctionRow('made, learnt on the development takes', made, () => development),
    '',
    '## The hint of drum',
    '',
    `Strokes of confidence ≥ ${SURE} within 5 ms of a true one, by what the ear calls them.`,
    '',
    ...hintTable('development', development),
    '',
    ...hintTable('made', made),
    '',
    'What the hint does in the match (`measurement/matching.ts`): told the sticking, as it is, and with the same odds for every candidate, so that it says nothing.',
    '',
    '| takes | F ±5 | F ±5 without | slot bias of the sure, ms | without | left-out strokes told played | without |',
    '| --- | --- | --- | --- | --- | --- | --- |',
    matchRow('development', development),
    matchRow('made', made),
  ].join('\n');
  console.log(text);
  writeFileSync('bench/ear/drums.md', `${text}\n`);
}

/** Takes on more than one drum: elsewhere a correction moves all places alike. */
function mixed({ truth }: Take): boolean {
  return new Set(truth.strokes.map(({ surface }) => surface)).size > 1;
}

type Matched = Outcome & { readonly errorMs: number; readonly take: string };

/** Strokes found within `windowSec`, sure of their time. */
function sureOf(takes: readonly Take[], windowSec: number, shiftMs: number): Matched[] {
  return takes.flatMap((take) =>
    outcomesOf(take, windowSec, shiftMs).outcomes.flatMap((outcome) => {
      const { errorMs, detection } = outcome;
      return errorMs !== null && (detection?.confidence ?? 0) >= SURE ? [{ ...outcome, errorMs, take: take.truth.id }] : [];
    }),
  );
}

function groupedBy<T>(values: readonly T[], by: (value: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const value of values) groups.set(by(value), [...(groups.get(by(value)) ?? []), value]);
  return groups;
}

function ms(value: number): string {
  return `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;
}

function biasTable(name: string, takes: readonly Take[]): string[] {
  const plain = sureOf(takes, 0.025, constantMs(takes)).filter(({ stroke }) => (stroke.smrDb ?? Number.POSITIVE_INFINITY) >= PLAIN_SMR_DB);
  const rows = [...groupedBy(plain, ({ stroke }) => stroke.surface)].map(([drum, strokes]) => {
    const errors = strokes.map(({ errorMs }) => errorMs);
    const interval = medianInterval(errors);
    const perTake = [...groupedBy(strokes, ({ take }) => take)]
      .map(([take, of]) => ({ take, middle: median(of.map(({ errorMs }) => errorMs)) }))
      .sort((a, b) => a.middle - b.middle);
    const [least, most] = [perTake[0]!, perTake.at(-1)!].map(({ take, middle }) => `${ms(middle)} (${take.replace(/_.*/, '')})`);
    const range = interval ? `${ms(interval.low)} to ${ms(interval.high)}` : '';
    const over = Math.abs(median(errors)) > GOAL_MS ? 'yes' : '';
    return `| ${drum} | ${perTake.length} | ${errors.length} | ${ms(median(errors))} | ${range} | ${least} to ${most} | ${over} |`;
  });
  return [`| ${name} | takes | strokes | median ms | 95 % | per take | over ${GOAL_MS} ms |`, '| --- | --- | --- | --- | --- | --- | --- |', ...rows];
}

/** The kind of a matched stroke: as the ear tells it, or as it was. */
type KindOf = (outcome: Outcome) => string;

function byTruth({ stroke }: Outcome): string {
  return stroke.surface;
}

function byEar({ detection }: Outcome): string {
  return (detection as Heard['strokes'][number]).drum;
}

function correctionRow(name: string, judged: readonly Take[], learntFrom: (take: Take) => readonly Take[]): string {
  const bias = (takes: readonly Judged[]) => slotBiasMs(takes, { shiftMs: constantMs(takes), minConfidence: SURE, average: 'median' }).toFixed(3);
  const corrected = (kindOf: KindOf) => judged.map((take) => correctedTake(take, kindOf, biasesOf(learntFrom(take), kindOf)));
  return `| ${name} | ${bias(judged)} | ${bias(corrected(byEar))} | ${bias(corrected(byTruth))} |`;
}

function biasesOf(takes: readonly Take[], kindOf: KindOf): Map<string, number> {
  const groups = [...groupedBy(sureOf(takes, 0.025, constantMs(takes)), kindOf)].filter(([, strokes]) => strokes.length >= FEWEST);
  return new Map(groups.map(([kind, strokes]) => [kind, median(strokes.map(({ errorMs }) => errorMs))]));
}

/** Only matched strokes move: what else was heard is no part of slot bias. */
function correctedTake(take: Take, kindOf: KindOf, biases: ReadonlyMap<string, number>): Judged {
  const detections = outcomesOf(take, 0.025).outcomes.flatMap((outcome) => {
    const { detection } = outcome;
    return detection ? [{ ...detection, timeSec: detection.timeSec - (biases.get(kindOf(outcome)) ?? 0) / 1000 }] : [];
  });
  return { truth: take.truth, detections: detections.sort((a, b) => a.timeSec - b.timeSec) };
}

function hintTable(name: string, takes: readonly Take[]): string[] {
  const rows = [...groupedBy(sureOf(takes, 0.005, constantMs(takes)), byTruth)].map(([drum, strokes]) => {
    const counts = KINDS.map((kind) => strokes.filter((stroke) => byEar(stroke) === kind).length);
    const right = RIGHT[drum];
    const share = right ? `${Math.round((100 * counts[KINDS.indexOf(right)]!) / strokes.length)} %` : 'no kind of its own';
    return `| ${drum} | ${strokes.length} | ${counts.join(' | ')} | ${share} |`;
  });
  return [
    `| ${name} | strokes | ${KINDS.map((kind) => `called ${kind}`).join(' | ')} | right |`,
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...rows,
  ];
}

function matchRow(name: string, takes: readonly Take[]): string {
  const told = (hinted: boolean): Judged[] =>
    takes.map(({ truth, heard, cycle, options }) => {
      const candidates = hinted ? heard.candidates : heard.candidates.map((candidate) => ({ ...candidate, drumOdds: SILENT_HINT }));
      return { truth, detections: toldDetections({ ...heard, candidates }, cycle, options) };
    });
  const [as, without] = [told(true), told(false)].map((judged) => {
    const shiftMs = constantMs(judged);
    const bias = slotBiasMs(judged, { shiftMs, minConfidence: SURE, average: 'median' });
    return { f: scoreWindow(judged, 5, { shiftMs }).f.toFixed(3), bias: bias.toFixed(2), filled: filledMisses(judged, shiftMs).filled };
  }) as [Told, Told];
  return `| ${name} | ${as.f} | ${without.f} | ${as.bias} | ${without.bias} | ${as.filled} | ${without.filled} |`;
}

interface Told {
  readonly f: string;
  readonly bias: string;
  readonly filled: number;
}
