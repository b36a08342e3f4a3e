/** Chance and clock of this machine, for records that are made here. */
import { randomBytes } from 'node:crypto';
import { CUT_OVER_HOUR, practiceDay, recordId } from '@evenhand/core/diary';

/** 128 random bits as 32 hexadecimal digits. */
export const newId = (): string => recordId(randomBytes(16));

/** The zone this machine is set to. */
export const zoneHere = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The practice day it is here at a moment. */
export const dayHere = (atMs: number): string => practiceDay(atMs, zoneHere(), CUT_OVER_HOUR);
