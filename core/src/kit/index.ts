/** The door of this stage: what others may import. */
export * from './drums.ts';
export * from './places.ts';
export * from './reach.ts';
export { type ReachStatement, toldBeyond, toldReach } from './said.ts';
