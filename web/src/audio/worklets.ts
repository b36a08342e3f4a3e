/** Puts the two worklets into an audio context. */
import { type ClickKind, type ClickSound, renderClick, USUAL_CLICK } from '@evenhand/core/sound';
import { CAPTURE_PROCESSOR } from './capture.ts';
import captureUrl from './capture.worklet.ts?worker&url';
import { CLICK_PROCESSOR, type Click, type ClickProcessorOptions, type ClickTables } from './click.ts';
import clickUrl from './click.worklet.ts?worker&url';

/** Loads both; needs a secure context. Rejects when the files cannot be had. */
export async function addWorklets(context: BaseAudioContext): Promise<void> {
  await Promise.all([context.audioWorklet.addModule(clickUrl), context.audioWorklet.addModule(captureUrl)]);
}

/** A node that sounds clicks, those given from its first frame on; talk to it by `ClickOrder`, hear from it by lists of `SoundedClick`. Not connected yet. */
export function clickNode(context: BaseAudioContext, clicks: readonly Click[] = []): AudioWorkletNode {
  const sounds = [USUAL_CLICK, ...clicks.map(({ sound = USUAL_CLICK }) => sound)];
  const processorOptions: ClickProcessorOptions = { tables: clickTables(sounds, context.sampleRate), clicks };
  return new AudioWorkletNode(context, CLICK_PROCESSOR, { numberOfInputs: 0, outputChannelCount: [1], processorOptions });
}

/** A node that sends what it is given, mixed to one channel; tell it where by `CaptureOrder`, which it answers once it obeys. Its own output stays silent, but must lead somewhere to keep it running. */
export function captureNode(context: BaseAudioContext): AudioWorkletNode {
  return new AudioWorkletNode(context, CAPTURE_PROCESSOR, { channelCount: 1, channelCountMode: 'explicit', outputChannelCount: [1] });
}

const KINDS: readonly ClickKind[] = ['bar', 'beat', 'subdivision'];

/** The samples of some sounds of the click, for a click node. */
export function clickTables(sounds: readonly ClickSound[], sampleRateHz: number): ClickTables {
  const tableOf = (sound: ClickSound) => Object.fromEntries(KINDS.map((kind) => [kind, renderClick(kind, sampleRateHz, sound)]));
  return Object.fromEntries([...new Set(sounds)].map((sound) => [sound, tableOf(sound)])) as unknown as ClickTables;
}
