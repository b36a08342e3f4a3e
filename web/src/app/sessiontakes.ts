/** What a running session asks for of its takes, handed to the ear: which block each belongs to, and what sounded in it. */
import { beatFramesOf, type SessionClick, type SessionEffect, type SessionState } from '@evenhand/core/session';
import type { Engine } from '../audio/engine.ts';
import type { BlockTakes } from './blocktake.ts';
import type { SessionPages } from './sessionpages.ts';

/** What it takes to carry that out. */
export interface TakeHands {
  readonly options: { readonly engine: Engine; readonly pages: SessionPages };
  readonly takes: BlockTakes;
  /** By block. */
  readonly takeNames: Map<number, string[]>;
  /** Scheduled, as far as a take may still ask for them. */
  clicks: readonly SessionClick[];
}

type EffectOf<Kind extends SessionEffect['kind']> = Extract<SessionEffect, { kind: Kind }>;

/** Carries out what is asked for of a take. */
export function record(effect: EffectOf<'openTake' | 'moveTakeEnd' | 'dropTake' | 'closeTake'>, state: SessionState, hands: TakeHands): void {
  const namesOf = (block: number) => hands.takeNames.get(block) ?? [];
  switch (effect.kind) {
    case 'openTake':
      if (!hands.options.engine.microphone) return;
      hands.takeNames.set(effect.block, [...namesOf(effect.block), effect.take]);
      hands.takes.open(effect, hands.options.pages.sessionId);
      break;
    case 'moveTakeEnd':
      hands.takes.moveEnd(effect.take, effect.toFrame);
      break;
    case 'dropTake':
      hands.takeNames.set(
        effect.block,
        namesOf(effect.block).filter((name) => name !== effect.take),
      );
      hands.takes.drop(effect.take);
      break;
    case 'closeTake':
      closeTake(effect, state, hands);
  }
}

function closeTake({ take, atFrame }: EffectOf<'closeTake'>, state: SessionState, hands: TakeHands): void {
  const run = [...state.runs, ...(state.previousRun ? [state.previousRun.run] : [])].find((one) => one.take === take);
  hands.takes.close(take, atFrame, { clicks: hands.clicks, beats: run ? beatFramesOf(run.layout, atFrame) : [] });
  // Takes are closed in turn: no later one asks for what sounded before this.
  if (run) hands.clicks = hands.clicks.filter(({ frame }) => frame >= run.layout.startFrame);
}

/** The microphone was plugged in again in a rest: the take that was asked for without it is there in time. */
export function askAgain(state: SessionState, hands: TakeHands): void {
  const { takeAsked, takeOpen } = state;
  if (takeAsked && !takeOpen && hands.takes.idsOf([takeAsked.take]).length === 0) record({ kind: 'openTake', ...takeAsked }, state, hands);
}
