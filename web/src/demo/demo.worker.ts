/** Makes the demo away from the page, so that the page goes on answering. */
import { seededRandom } from '@evenhand/core/random';
import { newId } from '../store/id.ts';
import { type DemoAsk, makeDemo } from './demo.ts';

/** Every demo is played by the same chance. */
const SEED = 11;

self.onmessage = ({ data }: MessageEvent<DemoAsk>) => {
  const demo = makeDemo({ ...data, random: seededRandom(SEED), newId });
  self.postMessage(demo, { transfer: demo.takes.map(({ samples }) => samples.buffer) });
};
