/** Keeps the screen on while a session runs, where the browser allows it. */

/** @returns what lets the screen sleep again; does nothing where it could not be kept awake. */
export async function stayAwake(): Promise<() => void> {
  let lock: WakeLockSentinel | null = null;
  let over = false;
  const ask = async (): Promise<void> => {
    const given = (await navigator.wakeLock?.request('screen').catch(() => null)) ?? null;
    // One that comes when the session is over already would keep the screen on for nothing.
    if (over) void given?.release();
    else lock = given;
  };
  // The browser takes the lock away with a hidden page and does not give it back by itself.
  const again = () => void (document.visibilityState === 'visible' && ask());
  await ask();
  document.addEventListener('visibilitychange', again);
  return () => {
    over = true;
    document.removeEventListener('visibilitychange', again);
    void lock?.release();
  };
}
