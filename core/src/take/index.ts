/** The door of this stage: what others may import. */
export * from './device.ts';
export * from './take.ts';
