/** The machine room of the demo: the same as a drummer's, on a database of its own. */
import type { KeepingProblem } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { DEMO_NAME } from '../demo/asked.ts';
import { clearDemo, openDemo } from '../demo/open.ts';
import { type Store, writtenNow } from '../store/store.ts';
import { type FirstRoom, roomOn } from './room.ts';

/** @param cautionsRead whether the drummer comes from a page that showed them; otherwise the demo begins with them. */
export const demoRoom = ({ cautionsRead }: { readonly cautionsRead: boolean }): FirstRoom =>
  roomOn(DEMO_NAME, {
    open: () => openRead(cautionsRead),
    forget: async () => (await clearDemo()).problems,
  });

async function openRead(cautionsRead: boolean): Promise<Reading<Store, KeepingProblem>> {
  const { day: today, zone } = writtenNow();
  const opened = await openDemo({ today, zone });
  const read = await opened.value?.read('latest');
  const isRead = read?.value?.view.settings.cautionsRead !== undefined;
  if (opened.value && cautionsRead && !isRead)
    await opened.value.append([{ kind: 'setting', ...writtenNow(), body: { name: 'cautionsRead', value: true } }]);
  return opened;
}
