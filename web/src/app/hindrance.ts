/** Whether the microphone is what hinders a take. */
import type { Problem } from '@evenhand/core/problem';

/** What a device can say that hinders recording but not a session by the click alone. */
export const hindersMicrophone = (problems: readonly Problem[]): boolean => problems.some((problem) => problem.code.startsWith('microphone-'));
