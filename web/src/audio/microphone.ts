/** Opens a microphone as it is: nothing filtered, nothing levelled; and tells what the browser did all the same. */
import type { Reading } from '@evenhand/core/problem';
import type { DeviceProblem } from '@evenhand/core/take';

/** What the browser says it does to the microphone's sound, read back after asking for nothing; null: it does not say. */
export interface GrantedMicrophone {
  readonly label: string;
  readonly deviceId: string;
  readonly sampleRateHz: number | null;
  readonly channelCount: number | null;
  readonly echoCancellation: boolean | null;
  readonly noiseSuppression: boolean | null;
  readonly autoGainControl: boolean | null;
}

export interface Microphone {
  readonly stream: MediaStream;
  readonly granted: GrantedMicrophone;
}

const PROCESSING = { echoCancellation: 'echo cancellation', noiseSuppression: 'noise suppression', autoGainControl: 'automatic volume' } as const;

/** Asks for a microphone, the browser's choice or a certain one. Doubtful when it is processed all the same, refused when there is none to be had. */
export async function openMicrophone(deviceId: string | undefined): Promise<Reading<Microphone, DeviceProblem>> {
  if (!(navigator.mediaDevices as MediaDevices | undefined)?.getUserMedia) return refused('microphone-none');
  const audio: MediaTrackConstraints = {
    echoCancellation: false,
    noiseSuppression: false,
    autoGainControl: false,
    channelCount: 1,
    ...(deviceId !== undefined && { deviceId: { exact: deviceId } }),
  };
  try {
    const stream = await navigator.mediaDevices.getUserMedia({ audio });
    const granted = grantedOf(stream.getAudioTracks()[0]!);
    return { value: { stream, granted }, problems: processedBy(granted) };
  } catch (error) {
    return refused(codeOf(error));
  }
}

function grantedOf(track: MediaStreamTrack): GrantedMicrophone {
  const settings = track.getSettings();
  return {
    label: track.label,
    deviceId: settings.deviceId ?? '',
    sampleRateHz: settings.sampleRate ?? null,
    channelCount: settings.channelCount ?? null,
    echoCancellation: flag(settings.echoCancellation),
    noiseSuppression: flag(settings.noiseSuppression),
    autoGainControl: flag(settings.autoGainControl),
  };
}

/** Newer browsers name a kind of echo cancellation in place of `true`. */
const flag = (value: boolean | string | undefined): boolean | null => (value === undefined ? null : value !== false);

function processedBy(granted: GrantedMicrophone): readonly DeviceProblem[] {
  const names = Object.keys(PROCESSING) as (keyof typeof PROCESSING)[];
  const processing = names.filter((name) => granted[name]).map((name) => PROCESSING[name]);
  return processing.length > 0 ? [{ code: 'microphone-processed', severity: 'doubtful', params: { processing } }] : [];
}

type RefusedCode = 'microphone-denied' | 'microphone-none' | 'microphone-busy';

const refused = (code: RefusedCode): Reading<Microphone, DeviceProblem> => ({ value: null, problems: [{ code, severity: 'refused', params: {} }] });

function codeOf(error: unknown): RefusedCode {
  const { name } = error as DOMException;
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'microphone-denied';
  return name === 'NotReadableError' || name === 'AbortError' ? 'microphone-busy' : 'microphone-none';
}
