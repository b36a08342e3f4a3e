/** Reference takes as the diary keeps them: which can be held against each other, and with what they were made. */
import type { DiaryView, KnownRecord, SetupBody } from '../diary/index.ts';
import type { Statement } from '../problem.ts';
import { measurementOfHeard } from './keptheard.ts';
import { isReference } from './results.ts';
import type { AloneStatement } from './said.ts';
import type { ReferenceTake } from './thenandnow.ts';

type Block = KnownRecord<'block'>;

/** Of blocks, reference takes of one exercise at the fastest tempo that has them on two days, in the order of the blocks; null when none has. */
export function fastestWithTwoDays(blocks: readonly Block[]): readonly Block[] | null {
  const takes = blocks.filter((block) => isReference(block) && block.body.heard !== null);
  const groups = new Map<string, Block[]>();
  for (const take of takes) groupIn(groups, `${take.body.exercise.id} ${take.body.tempoBpm}`, take);
  const fastest = [...groups.values()].sort((a, b) => b[0]!.body.tempoBpm - a[0]!.body.tempoBpm);
  return fastest.find((same) => same.some(({ day }) => day !== same[0]!.day)) ?? null;
}

function groupIn(groups: Map<string, Block[]>, key: string, block: Block): void {
  const group = groups.get(key);
  if (group) group.push(block);
  else groups.set(key, [block]);
}

/** A block that was heard as a reference take, with the set-up said last by its day. */
export function referenceTake({ day, body }: Block, { setups }: Pick<DiaryView, 'setups'>): ReferenceTake {
  const setup = setups.filter((said) => said.day <= day).at(-1)?.body;
  return { day, measurement: measurementOfHeard(body.heard!, body.tempoBpm), drums: body.exercise.surfaces, setup: setup ? saidOf(setup) : {} };
}

/** Why the diary's lines of two takes may differ though nothing changed for sure between them; empty where they do not, or something did. */
export function linesDiffer(then: Block, now: Block, said: readonly Statement[]): readonly AloneStatement[] {
  const [faultThen, faultNow] = [then, now].map(namesFault);
  if (faultThen === faultNow || !said.some(({ code }) => code === 'progress-nothing-sure')) return [];
  return [{ code: 'progress-lines-differ', params: { thenDay: then.day, nowDay: now.day, faultThen: faultThen! } }];
}

const namesFault = ({ body }: Block): boolean => (body.heard?.findings ?? []).some(({ code }) => code !== 'nothing-stands-out');

const saidOf = (setup: SetupBody): Readonly<Record<string, string>> => Object.fromEntries(Object.entries(setup).filter(([, said]) => said !== ''));
