/** Waits for four stick clicks to start a session: the microphone open before anybody touches anything, where the drummer has allowed it. */
import type { Problem } from '@evenhand/core/problem';
import { GO_CLICKS } from '@evenhand/core/session';
import type { Engine } from '../audio/engine.ts';
import type { Room } from './room.ts';

/** A microphone that listens for the start. */
export interface Armed {
  readonly engine: Engine;
  /** Hands the sound on to a session: it stays open, nobody waits for four clicks any more. */
  take(): Engine;
  close(): Promise<void>;
}

/** Whether the browser gives the microphone without a question: none is ever asked where nobody has pressed anything. */
async function allowedAlready(): Promise<boolean> {
  try {
    return (await navigator.permissions.query({ name: 'microphone' as PermissionName })).state === 'granted';
  } catch {
    // A browser that cannot be asked names its microphones only once one was allowed.
    const devices = (await navigator.mediaDevices?.enumerateDevices().catch(() => [])) ?? [];
    return devices.some(({ kind, label }) => kind === 'audioinput' && label !== '');
  }
}

/**
 * Opens the microphone and waits.
 * @param onGo told of four clicks with their tempo, once.
 * @returns null when there is no microphone to be had without a question; `tell` hears why it may not work.
 */
export async function arm(room: Room, onGo: (tempoBpm: number) => void, tell: (problems: readonly Problem[]) => void): Promise<Armed | null> {
  if (!(await allowedAlready())) return null;
  const { value: engine, problems } = await room.openEngine({ microphone: 'asked' });
  tell(problems);
  if (!engine?.microphone) {
    await engine?.close();
    return null;
  }
  const ear = room.ear();
  ear.listenTo(engine);
  ear.listenForSticks(engine.sampleRateHz);
  let waiting = true;
  const off = ear.onSticks(({ count, tempoBpm }) => {
    if (!waiting || count !== GO_CLICKS) return;
    waiting = false;
    onGo(tempoBpm);
  });
  const end = (): void => {
    waiting = false;
    off();
    ear.listenForSticks(null);
  };
  return {
    engine,
    take() {
      end();
      return engine;
    },
    async close() {
      end();
      await engine.close();
    },
  };
}
