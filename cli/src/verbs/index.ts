/** All verbs, in the order in which a drummer meets them. */
import type { Verb } from '../verb.ts';
import { exercises } from './exercises.ts';
import { listen } from './listen.ts';
import { serve } from './serve.ts';
import { sheet } from './sheet.ts';
import { strokes } from './strokes.ts';

export const verbs: readonly Verb[] = [listen, strokes, exercises, sheet, serve];
