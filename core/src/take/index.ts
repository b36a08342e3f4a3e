/** The door of this stage: what others may import. */
export * from './device.ts';
export * from './inspect.ts';
export * from './take.ts';
export * from './wav.ts';
