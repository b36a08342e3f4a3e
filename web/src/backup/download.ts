/** A file leaves the page by a link that is pressed for the drummer. */
import { msOfMinutes } from '@evenhand/core/units';

/** How long the browser may take to begin with the file. Assumption: it asks where to put it before that. */
const HELD_MS = msOfMinutes(1);

/** Saves a file under a name, where the browser puts downloads. */
export function saveFile(file: Blob, name: string): void {
  const url = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), HELD_MS);
}

/** Name of a backup saved on a day. @param whose whose it is, as `playerPart` says it. */
export const backupName = (day: string, whose: string): string => `evenhand${whose}-${day}.zip`;
