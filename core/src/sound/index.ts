/** The door of this stage: what others may import. */
export * from './click.ts';
export * from './clickname.ts';
export * from './exercise.ts';
export * from './peak.ts';
export { mixIn, type RenderOptions, renderStrokes, type SoundingStroke, underCeiling } from './render.ts';
export { type VoiceName, voiceOf } from './voices.ts';
