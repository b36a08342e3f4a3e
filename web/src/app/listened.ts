/** What of a session the microphone hears: nothing while it is pulled out, nor in a block that began then. */
import type { ExerciseSpan, FrameSpan } from '@evenhand/core/session';
import type { Engine } from '../audio/engine.ts';
import type { BlockTakes } from './blocktake.ts';

export interface Listened {
  /** Whether what is played now is heard. @param takeOpen name of the take of the block that runs, null between blocks. */
  now(takeOpen: string | null): boolean;
  /** Whether a round was heard from its first beat to its last. */
  to(span: ExerciseSpan): boolean;
  /** Looks no longer. */
  off(): void;
}

export function listened(engine: Engine, takes: BlockTakes): Listened {
  let out: readonly FrameSpan[] = [];
  const offs = [
    engine.onProblem(({ code }) => {
      if (code === 'microphone-lost') out = [...out, { fromFrame: engine.nextFrame(), toFrame: Number.POSITIVE_INFINITY }];
    }),
    engine.onMicrophoneBack(() => {
      out = out.map((one) => ({ ...one, toFrame: Math.min(one.toFrame, engine.nextFrame()) }));
    }),
  ];
  const isThere = (take: string): boolean => takes.idsOf([take]).length > 0;
  return {
    now: (takeOpen) => engine.microphone !== null && (takeOpen === null || isThere(takeOpen)),
    to: ({ take, fromFrame, toFrame }) => isThere(take) && !out.some((one) => one.fromFrame < toFrame && one.toFrame > fromFrame),
    off: () => {
      for (const off of offs) off();
    },
  };
}
