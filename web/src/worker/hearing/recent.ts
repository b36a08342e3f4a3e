/** The sound of a take's last minute, kept in memory so that a round can be heard while its take goes on. */

/** How much is kept. Assumption: longer than any round with what is needed before it; 12 MB at 48 kHz. */
const KEPT_SEC = 60;

export interface Recent {
  /** @param fromFrame of the take; frames that never came lie between two parts. */
  add(samples: Float32Array, fromFrame: number): void;
  /** The sound from a frame of the take on, silent where nothing came, and the frame at which it begins: later where more is not kept. */
  from(fromFrame: number): { readonly samples: Float32Array<ArrayBuffer>; readonly fromFrame: number };
}

export function createRecent(sampleRateHz: number): Recent {
  const parts: { readonly samples: Float32Array; readonly fromFrame: number }[] = [];
  let endFrame = 0;
  return {
    add(samples, fromFrame) {
      parts.push({ samples, fromFrame });
      endFrame = fromFrame + samples.length;
      while (parts[0]!.fromFrame < endFrame - KEPT_SEC * sampleRateHz) parts.shift();
    },
    from(asked) {
      const within = parts.filter(({ samples, fromFrame }) => fromFrame + samples.length > asked);
      const fromFrame = within[0]?.fromFrame ?? endFrame;
      const samples = new Float32Array(endFrame - fromFrame);
      for (const part of within) samples.set(part.samples, part.fromFrame - fromFrame);
      return { samples, fromFrame };
    },
  };
}
