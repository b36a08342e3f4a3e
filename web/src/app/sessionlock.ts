/** Whoever plays a session holds its lock; a page that is closed lets go of it. So one that was cut off can be told from one that runs in another tab. */

const PREFIX = 'evenhand:session:';
const nameOf = (sessionId: string): string => `${PREFIX}${sessionId}`;

/** Locks that this page holds. */
const own = new Set<string>();

/** Holds the lock of a session until the answer is called. */
export function holdSession(sessionId: string): () => void {
  let letGo = (): void => {};
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  const name = nameOf(sessionId);
  own.add(name);
  // Refused only when the page is going away.
  navigator.locks
    ?.request(name, () => held)
    .catch(() => {})
    .finally(() => own.delete(name));
  return letGo;
}

/** Settles once nobody plays a session any more; at once where there are no locks (no secure context, so no session either). */
export async function sessionFree(sessionId: string): Promise<void> {
  await navigator.locks?.request(nameOf(sessionId), () => {}).catch(() => {});
}

/**
 * Tells whether somebody plays a session in another tab: now, whenever this one comes into sight, and once more when it is over. Where there are no
 * locks it tells nothing.
 * @returns the way to hear no more of it.
 */
export function watchElsewhere(tell: (played: boolean) => void): () => void {
  let wanted = true;
  async function look(): Promise<void> {
    const held = (await navigator.locks?.query())?.held ?? [];
    const other = held.find(({ name }) => name?.startsWith(PREFIX) && !own.has(name));
    if (wanted) tell(other !== undefined);
    if (!wanted || !other) return;
    await sessionFree(other.name!.slice(PREFIX.length));
    await look();
  }
  const seen = (): void => {
    if (document.visibilityState === 'visible') void look();
  };
  document.addEventListener('visibilitychange', seen);
  void look();
  return () => {
    wanted = false;
    document.removeEventListener('visibilitychange', seen);
  };
}
