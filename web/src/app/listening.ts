/** Whether a session begins with the microphone open: as the last one was played, so that nobody has to say it every evening. */
import type { DiaryView } from '@evenhand/core/diary';

/** No when the last session in which anything was judged went by the player's own word alone; else yes. One that heard nothing for other reasons changes nothing. */
export function listensAsLastTime({ days }: DiaryView): boolean {
  const sessions = days.flatMap((day) => [...day.sessions].reverse());
  const judged = sessions.find(({ blocks }) => blocks.some(({ body }) => body.takeIds.length > 0 || body.playerSays !== null));
  return judged?.blocks.some(({ body }) => body.takeIds.length > 0) ?? true;
}
