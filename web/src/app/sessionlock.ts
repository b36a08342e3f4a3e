/** Whoever plays a session holds its lock; a page that is closed lets go of it. So one that was cut off can be told from one that runs in another tab. */

const nameOf = (sessionId: string): string => `evenhand:session:${sessionId}`;

/** Holds the lock of a session until the answer is called. */
export function holdSession(sessionId: string): () => void {
  let letGo = (): void => {};
  const held = new Promise<void>((resolve) => {
    letGo = resolve;
  });
  // Refused only when the page is going away.
  navigator.locks?.request(nameOf(sessionId), () => held).catch(() => {});
  return letGo;
}

/** Settles once nobody plays a session any more; at once where there are no locks (no secure context, so no session either). */
export async function sessionFree(sessionId: string): Promise<void> {
  await navigator.locks?.request(nameOf(sessionId), () => {}).catch(() => {});
}
