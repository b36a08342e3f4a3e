/** English for what can be wrong with a recording. */
import type { TakeProblem } from '../../take/index.ts';
import type { Sentences } from '../sentences.ts';

export const takeSentences: Sentences<TakeProblem> = {
  'take-not-audio': ({ looksLike }) => `This is not a sound file; it looks like ${looksLike}. Choose a recording: WAV, FLAC, MP3, Ogg or the like.`,
  'take-unsupported': ({ encoding }) =>
    `Evenhand cannot read this kind of sound file (${encoding}). Save it as WAV, 16 or 24 bit, and open it again.`,
  'take-empty': () => 'There is no sound in this file: it holds no samples. Record or export it again.',
  'take-too-short': ({ durationSec }) => `This take lasts ${durationSec.toFixed(1)} s, too short to hear a phrase. Record at least two cycles.`,
  'take-cut-short': ({ expectedSec, foundSec }) =>
    `The file ends early: it promises ${expectedSec.toFixed(1)} s and holds ${foundSec.toFixed(1)} s. What is there was read.`,
  'take-damaged': ({ foundSec }) =>
    `The file is damaged or ends early; the ${foundSec.toFixed(1)} s before that were read. Copy it again from where it came from.`,
  'take-click-heard': () =>
    'The click is heard in this take nearly as loud as your softer strokes. It was taken out as far as that goes; headphones, or a softer click, make the times surer.',
  'take-silent': () => 'Nothing is heard in this take. Check that the right microphone is chosen and not muted, then play a few strokes again.',
  'take-clipped': ({ clippedCount }) =>
    `The loudest strokes are clipped (${clippedCount} places), so their volume cannot be told. Move the microphone away or turn its gain down.`,
  'take-gaps': ({ gapCount }) =>
    `The recording has gaps (${gapCount}). Figures near them are not to be trusted; close other programs and record again.`,
};
