/** Who records a take holds its lock; a browser that is killed lets go of it. So a take that is cut off can be told from one in another tab. */

const nameOf = (storeName: string, takeId: string): string => `${storeName}:take:${takeId}`;

/** Holds the lock of a take until the answer is called. */
export function lockTake(storeName: string, takeId: string): () => void {
  let unlock = (): void => {};
  const held = new Promise<void>((resolve) => {
    unlock = resolve;
  });
  // Refused only when the page is going away.
  navigator.locks.request(nameOf(storeName, takeId), () => held).catch(() => {});
  return unlock;
}

/** Runs `work` holding a take's lock, or gives null when somebody else holds it. */
export function withFreeTake<Value>(storeName: string, takeId: string, work: () => Promise<Value>): Promise<Value | null> {
  return navigator.locks.request(nameOf(storeName, takeId), { ifAvailable: true }, (lock) => (lock ? work() : null));
}
