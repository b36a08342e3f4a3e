/** The candidates of a take before they are judged, as plain numbers: an hour has a hundred thousand of them, and has to fit into memory. */
import type { RawCandidate } from './analyse.ts';

/** The numbers of a candidate, in the order of a row. */
const FIELDS = [
  'timeSec',
  'height',
  'surprise',
  'standing',
  'volumeDb',
  'volumeRiseDb',
  'energyPlace',
  'fit',
  'rise',
  'tail',
] as const satisfies readonly (keyof RawCandidate)[];

/** Candidates in rising time, a row of numbers each; `addFound` changes it in place. */
export interface Found {
  values: Float64Array;
  count: number;
}

const GROWTH = 1.25;

/** None yet. */
export const startFound = (): Found => ({ values: new Float64Array(1024 * FIELDS.length), count: 0 });

/** Adds one behind all others. */
export const addFound = (found: Found, candidate: RawCandidate): void => {
  const from = found.count * FIELDS.length;
  if (from === found.values.length) {
    const larger = new Float64Array(Math.ceil(GROWTH * found.count) * FIELDS.length);
    larger.set(found.values);
    found.values = larger;
  }
  FIELDS.forEach((field, i) => {
    found.values[from + i] = candidate[field];
  });
  found.count++;
};

/** The candidate of a row. */
export const foundAt = ({ values }: Found, row: number): RawCandidate => {
  const at = row * FIELDS.length;
  return {
    timeSec: values[at]!,
    height: values[at + 1]!,
    surprise: values[at + 2]!,
    standing: values[at + 3]!,
    volumeDb: values[at + 4]!,
    volumeRiseDb: values[at + 5]!,
    energyPlace: values[at + 6]!,
    fit: values[at + 7]!,
    rise: values[at + 8]!,
    tail: values[at + 9]!,
  };
};
