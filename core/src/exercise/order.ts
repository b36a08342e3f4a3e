/** The order of the shelf: what a teacher would come to first, and not one family all evening. */
import type { Family } from './exercise.ts';
import { FAMILY_LAST_WAIT, FAMILY_WAIT, MENU } from './parameters.ts';

/** Something to be put in order. */
interface Waiting {
  readonly family: Family;
  /** When it would come by itself: the smaller, the sooner. */
  readonly turn: number;
}

/**
 * Interleaves families: again and again the one with the smallest turn, to which every turn its family has had adds a wait, and the last one more.
 * Within a family the order is by turn, equals as they came. Every family has had a turn by the end of the first dozen.
 */
export function inTurn<Each extends Waiting>(all: readonly Each[]): readonly Each[] {
  const rows = new Map<Family, Each[]>();
  for (const each of all) rows.set(each.family, [...(rows.get(each.family) ?? []), each]);
  const queues = [...rows.values()].map((row) => ({ row: row.sort((a, b) => a.turn - b.turn), next: 0 }));
  const order: Each[] = [];
  while (order.length < all.length) {
    const last = order.at(-1)?.family;
    const open = queues.filter(({ row, next }) => next < row.length);
    const cost = ({ row, next }: (typeof open)[number]) => row[next]!.turn + next * FAMILY_WAIT + (row[next]!.family === last ? FAMILY_LAST_WAIT : 0);
    const unseen = open.filter(({ next }) => next === 0);
    const among = order.length < MENU && MENU - order.length <= unseen.length ? unseen : open;
    const best = among.reduce((least, each) => (cost(each) < cost(least) ? each : least));
    order.push(best.row[best.next]!);
    best.next += 1;
  }
  return order;
}
