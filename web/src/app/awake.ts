/** Keeps the screen on while a session runs, where the browser allows it. */

/** @returns what lets the screen sleep again; does nothing where it could not be kept awake. */
export async function stayAwake(): Promise<() => void> {
  let lock: WakeLockSentinel | null = null;
  const ask = async (): Promise<void> => {
    lock = (await navigator.wakeLock?.request('screen').catch(() => null)) ?? null;
  };
  // The browser takes the lock away with a hidden page and does not give it back by itself.
  const again = () => void (document.visibilityState === 'visible' && ask());
  await ask();
  document.addEventListener('visibilitychange', again);
  return () => {
    document.removeEventListener('visibilitychange', again);
    void lock?.release();
  };
}
