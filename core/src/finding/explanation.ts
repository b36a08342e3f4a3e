/** What could be behind a take: each cause with the strokes it touches in a cycle. */
import type { ExpectedStroke } from '../exercise/index.ts';
import type { CycleEvent } from '../measurement/index.ts';
import type { Limb } from '../sticking/index.ts';
import { barColumns, fillOf } from './bar.ts';
import { doublesOf } from './doubles.ts';
import type { Cause } from './finding.ts';

/** What a cause can move: when strokes come, how loud, whether they come, and what comes too many. */
export type Response = 'time' | 'volume' | 'missed' | 'bounced' | 'apart';

/** One cause in one cycle. */
export interface Explanation {
  readonly cause: Exclude<Cause, 'none' | 'pair'>;
  /** The cause and whom it concerns, the same in every take: `limb:K`, `place:5`, `after:K>R`. `words` names it. */
  readonly key: string;
  readonly responses: readonly Response[];
  /** Main strokes touched, from 0. */
  readonly indices: readonly number[];
  /** Share of the effect at an event of the cycle. */
  readonly weights: Float64Array;
  /** Share of the effect that differs from cycle to cycle: of an event, its cycle and how far the take has gone (0 to 1). Null: it does not differ. */
  readonly at: ((place: number, cycle: number, gone: number) => number) | null;
}

/** A cycle as the causes see it. */
export interface CycleView {
  readonly events: readonly CycleEvent[];
  readonly lengthBeats: number;
  /** Beats of a bar. */
  readonly barBeats: number;
  /** Main strokes of the fill, when the phrase has one. */
  readonly fill: readonly number[];
  /** Errors are told against a click. */
  readonly clicked: boolean;
  /** Of each main stroke, which stroke of the sticking point it stands for; null: of none. */
  readonly standsFor: (index: number) => number | null;
}

const TIMED: readonly Response[] = ['time', 'volume', 'missed'];

/** Everything that could be behind a take of this cycle. Causes that touch nothing, or everything alike, are left out. */
export function explanationsOf(view: CycleView): Explanation[] {
  return [
    ...doubleCauses(view),
    ...limbCauses(view),
    ...placeCauses(view),
    ...graceCauses(view),
    ...togetherCauses(view),
    ...accentCauses(view),
    ...changeCauses(view),
    ...fillCauses(view),
    ...barCauses(view),
    ...bounceCauses(view),
    ...driftCauses(view),
  ];
}

type Touches = (stroke: ExpectedStroke, event: CycleEvent, place: number) => boolean;

/** A cause that touches the same strokes in every cycle; null when it touches none of them or all. */
function steady(
  view: CycleView,
  cause: Explanation['cause'],
  how: { key: string; responses?: readonly Response[]; touches: Touches },
): Explanation[] {
  const touched = view.events.map((event, place) => event.strokes.filter((stroke) => how.touches(stroke, event, place)));
  const count = touched.filter((strokes) => strokes.length > 0).length;
  if (count === 0 || count === view.events.length) return [];
  return [
    {
      cause,
      key: how.key,
      responses: how.responses ?? TIMED,
      indices: touched.flatMap((strokes) => strokes.map(({ index }) => index)).sort((a, b) => a - b),
      weights: Float64Array.from(touched, (strokes) => (strokes.length > 0 ? 1 : 0)),
      at: null,
    },
  ];
}

const LIMBS: readonly Limb[] = ['K', 'H', 'L', 'R'];
const isFoot = (limb: Limb): boolean => limb === 'K' || limb === 'H';
const limbsIn = ({ events }: CycleView): Limb[] => LIMBS.filter((limb) => events.some(({ strokes }) => strokes.some((s) => s.limb === limb)));

function placeCauses(view: CycleView): Explanation[] {
  return view.events.flatMap(({ strokes }) =>
    strokes.flatMap(({ index }) => {
      const stands = view.standsFor(index);
      return stands === null ? [] : steady(view, 'place', { key: `place:${stands}`, touches: (stroke) => stroke.index === index });
    }),
  );
}

/** The second, or the first, of the doubles of a limb, of the hands, of everybody. */
function doubleCauses(view: CycleView): Explanation[] {
  const doubles = doublesOf(view.events, view.lengthBeats);
  const limbs = LIMBS.filter((limb) => doubles.some((double) => double.limb === limb));
  const groups = [
    ...limbs.map((limb) => ({ name: limb as string, of: [limb] as readonly Limb[] })),
    ...(limbs.includes('R') && limbs.includes('L') ? [{ name: 'hands', of: ['R', 'L'] as readonly Limb[] }] : []),
    ...(limbs.length > 1 && limbs.some(isFoot) ? [{ name: 'all', of: limbs }] : []),
  ];
  return groups.flatMap(({ name, of }) => {
    const indicesOf = (which: 'first' | 'second') => new Set(doubles.filter(({ limb }) => of.includes(limb)).map((double) => double[which]));
    const [seconds, firsts] = [indicesOf('second'), indicesOf('first')];
    return [
      ...steady(view, 'second-of-double', { key: `second-of-double:${name}`, touches: ({ index }) => seconds.has(index) }),
      ...steady(view, 'first-of-double', { key: `first-of-double:${name}`, touches: ({ index }) => firsts.has(index) }),
    ];
  });
}

function limbCauses(view: CycleView): Explanation[] {
  return limbsIn(view).flatMap((limb) => steady(view, 'limb', { key: `limb:${limb}`, touches: (stroke) => stroke.limb === limb }));
}

function graceCauses(view: CycleView): Explanation[] {
  return steady(view, 'grace', { key: 'grace:all', touches: ({ graceCount }) => graceCount > 0 });
}

/** Strokes together are heard as one that comes early when one of them leads, and as two when they are far apart. */
function togetherCauses(view: CycleView): Explanation[] {
  return steady(view, 'together', { key: 'together:all', responses: ['time', 'apart'], touches: (_, { strokes }) => strokes.length > 1 });
}

function accentCauses(view: CycleView): Explanation[] {
  const beside = (place: number, by: number) => view.events[(place + by + view.events.length) % view.events.length]!;
  return [
    ...steady(view, 'into-accent', { key: 'into-accent:all', touches: (_, event, place) => !event.accent && beside(place, 1).accent }),
    ...steady(view, 'out-of-accent', { key: 'out-of-accent:all', touches: (_, event, place) => !event.accent && beside(place, -1).accent }),
    ...steady(view, 'accent', { key: 'accent:all', touches: (_, event) => event.accent }),
  ];
}

/** The stroke after another limb, and the stroke of a limb that has come from another drum. */
function changeCauses(view: CycleView): Explanation[] {
  const before = (place: number) => view.events[(place + view.events.length - 1) % view.events.length]!;
  const follows = (place: number, from: (limb: Limb) => boolean, to: Limb) => {
    const { strokes } = before(place);
    return strokes.some(({ limb }) => from(limb)) && strokes.every(({ limb }) => limb !== to);
  };
  const limbs = limbsIn(view);
  const pairs = limbs.flatMap((from) => limbs.flatMap((to) => (from === to ? [] : [{ from, to }])));
  const after = (key: string, from: (limb: Limb) => boolean, to: (limb: Limb) => boolean) =>
    steady(view, 'after-limb', { key: `after:${key}`, touches: (stroke, _, place) => to(stroke.limb) && follows(place, from, stroke.limb) });
  const isHand = (limb: Limb) => !isFoot(limb);
  return [
    ...after('foot>hand', isFoot, isHand),
    ...after('hand>foot', isHand, isFoot),
    ...after('hand>hand', isHand, isHand),
    ...pairs.flatMap(({ from, to }) =>
      after(
        `${from}>${to}`,
        (limb) => limb === from,
        (limb) => limb === to,
      ),
    ),
    ...steady(view, 'after-move', { key: 'after-move:all', touches: (stroke, _, place) => hasMoved(view.events, place, stroke) }),
  ];
}

/** The limb's stroke before this one was on another drum. */
function hasMoved(events: readonly CycleEvent[], place: number, { limb, surface }: ExpectedStroke): boolean {
  for (let back = 1; back < events.length; back++) {
    const last = events[(place - back + events.length) % events.length]!.strokes.find((stroke) => stroke.limb === limb);
    if (last) return last.surface !== surface;
  }
  return false;
}

function fillCauses(view: CycleView): Explanation[] {
  const { indices, weights } = fillOf(view.events, view.fill);
  return indices.length === 0 ? [] : [{ cause: 'fill', key: 'fill:all', responses: ['time'], indices, weights, at: null }];
}

const barCauses = (view: CycleView): Explanation[] =>
  barColumns(view).map(({ key, indices, weights, at }) => ({ cause: 'bar-place', key, responses: TIMED, indices, weights, at }));

/** One bounce too many: after one stroke, after the seconds of doubles, after a limb. */
function bounceCauses(view: CycleView): Explanation[] {
  const sets = [...doubleCauses(view).filter(({ cause }) => cause === 'second-of-double'), ...limbCauses(view), ...placeCauses(view)];
  return sets.map((set) => ({ ...set, cause: 'bounce', key: `bounce:${set.key}`, responses: ['bounced'] }));
}

/** Over the whole take: everybody or one limb comes later or softer (tiring), everybody comes earlier or later against the click. */
function driftCauses(view: CycleView): Explanation[] {
  const all = view.events.flatMap(({ strokes }) => strokes.map(({ index }) => index));
  const nothing = new Float64Array(view.events.length);
  const limbs = limbsIn(view);
  const drift = (cause: 'tiring' | 'rushing', how: { key: string; responses: readonly Response[]; limb?: Limb }): Explanation => ({
    cause,
    key: how.key,
    responses: how.responses,
    indices: how.limb ? view.events.flatMap(({ strokes }) => strokes.flatMap(({ limb, index }) => (limb === how.limb ? [index] : []))) : all,
    weights: nothing,
    at: (place, _, gone) => (!how.limb || view.events[place]!.strokes.some(({ limb }) => limb === how.limb) ? gone - 0.5 : 0),
  });
  return [
    drift('tiring', { key: 'tiring:all', responses: ['volume'] }),
    ...(limbs.length > 1 ? limbs.map((limb) => drift('tiring', { key: `tiring:${limb}`, responses: ['time', 'volume'], limb })) : []),
    ...(view.clicked ? [drift('rushing', { key: 'rushing:all', responses: ['time'] })] : []),
  ];
}
