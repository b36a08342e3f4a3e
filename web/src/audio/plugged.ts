/** A microphone that may be pulled out while the sound runs, and plugged in again. */
import { type Microphone, openMicrophone } from './microphone.ts';

export interface Plugged {
  /** null while it is pulled out. */
  now(): Microphone | null;
  /** Lets go of it for good. */
  close(): void;
}

interface Told {
  /** It is there again: what it hears comes in this stream. */
  readonly connect: (stream: MediaStream) => void;
  readonly onLost: () => void;
  readonly onBack: () => void;
}

/** Watches over an open microphone. Only the same one is opened again: another would hear from another place, and figures would not compare. */
export function plugged(first: Microphone, { connect, onLost, onBack }: Told): Plugged {
  let now: Microphone | null = first;
  let asking = false;
  let closed = false;
  const devices = navigator.mediaDevices;

  function lost(): void {
    if (closed) return;
    now = null;
    onLost();
  }

  function hold(microphone: Microphone): void {
    now = microphone;
    microphone.stream.getAudioTracks()[0]?.addEventListener('ended', lost, { once: true });
  }

  async function look(): Promise<void> {
    if (now || asking || closed) return;
    asking = true;
    const { value } = await openMicrophone(first.granted.deviceId || undefined);
    asking = false;
    if (!value) return;
    if (closed) return stop(value);
    hold(value);
    connect(value.stream);
    onBack();
  }

  hold(first);
  devices.addEventListener('devicechange', look);
  return {
    now: () => now,
    close() {
      closed = true;
      devices.removeEventListener('devicechange', look);
      if (now) stop(now);
    },
  };
}

function stop({ stream }: Microphone): void {
  for (const track of stream.getTracks()) track.stop();
}
