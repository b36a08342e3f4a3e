/** Random ids of records, takes and devices. */
import { recordId } from '@evenhand/core/diary';

/** 128 random bits as 32 hexadecimal digits, for a record whose id must be known before it is written. */
export const newId = (): string => recordId(crypto.getRandomValues(new Uint8Array(16)));
