/** The text face of printed pages, for whatever sets text without a browser. */
import { bytesOfBase64 } from '../base64.ts';
import { SERIF_REGULAR, SERIF_SEMIBOLD } from './serif.generated.ts';

/** Both weights as font files (WOFF). */
export const faces = (): Readonly<Record<'regular' | 'semibold', Uint8Array>> => ({
  regular: bytesOfBase64(SERIF_REGULAR),
  semibold: bytesOfBase64(SERIF_SEMIBOLD),
});
