/** The door of this stage: what others may import. */
export { againstAlikeDb } from './againstalike.ts';
export { audibleMs } from './audible.ts';
export type { TakeOptions } from './cases.ts';
export { cellToWorkOn } from './cell.ts';
export * from './finding.ts';
export { type FindingOptions, type FurtherTake, findingsOf } from './findings.ts';
export { spacesMs, writtenAlike } from './observations.ts';
export { type TimeWord, timeWord, type VolumeWord, volumeWord } from './oneword.ts';
export { type Probe, type ProbeOptions, proposeProbes, ruledOut } from './probes.ts';
export type { ProbeKind, ProbeTake } from './probetake.ts';
export { type Meant, meantShape } from './wanted.ts';
export { worstPlace } from './worst.ts';
export { type TempoTake, tempoZones } from './zones.ts';
