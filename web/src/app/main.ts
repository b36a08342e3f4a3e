/** Where the app begins in the browser. */
import '../design/palette.css';
import '../design/page.css';
import { mount } from 'svelte';
import { demoAsked } from '../demo/asked.ts';
import { startOffline } from '../offline/offline.ts';
import App from '../screens/App.svelte';
import { screenParts } from '../screens/parts.svelte.ts';
import type { Desk } from './desk.svelte.ts';
import { type BehindDesk, createFrontDesk } from './frontdesk.svelte.ts';
import { followLight } from './light.ts';
import { playersDue } from './players.ts';
import { deviceRoom } from './room.ts';
import { rememberHere, wasHere } from './washere.ts';

followLight();
void start();

/** A function, for an await at the top of this file would wait for itself: what is fetched later needs what is bundled with it. */
async function start(): Promise<void> {
  const asked = demoAsked(location.search);
  // The demo is fetched only where it is asked for, and the whole desk only when it is first used.
  const room = asked ? (await import('./demoroom.ts')).demoRoom(asked) : deviceRoom();
  const fetchRest = async (behind: BehindDesk<Desk>) => (await import('./desk.svelte.ts')).createDesk(behind);
  const desk = createFrontDesk<Desk>(room, fetchRest, () => {
    if (!asked) rememberHere();
    reachForToday();
  });
  const opened = desk.open();
  // While the diary is opened nothing else is to be done.
  if (wasHere() && !asked) reachForToday();
  mount(App, { target: document.getElementById('app')!, props: { desk, offline: startOffline() } });
  // The first time, telling the day takes a while; the browser is still looking for the diary.
  void desk.today;
  await opened;
  if (playersDue(room.whose?.players ?? [], Date.now()).length > 0) await (await import('./playerslist.ts')).dropDue();
}

/** A part that is not there is told when it is wanted. */
function reachForToday(): void {
  import('./desk.svelte.ts').catch(() => {});
  void screenParts.session.fetch();
}
