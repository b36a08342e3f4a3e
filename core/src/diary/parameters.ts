/** Numbers that decide when a day begins and whose clock is believed. */
import { msOfDays } from '../units.ts';

/** Hour at which a new practice day begins unless the player says otherwise. Assumption: who plays at night is home and asleep by four. */
export const CUT_OVER_HOUR = 4;

/** A record from elsewhere may pull this device's stamps ahead of its own clock by no more than this, so that one device set to a wrong year does not spoil all. Assumption: a day covers any mistaken zone. */
export const MAX_AHEAD_MS = msOfDays(1);

/** Longest practice of a row of a table, minutes: a day. */
export const LONGEST_MINUTES = 1440;
