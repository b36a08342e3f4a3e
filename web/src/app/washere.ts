/** Whether somebody was here before: kept apart from the diary, because what today needs is fetched while the diary is still opened. */

const KEY = 'evenhand-was-here';

export function wasHere(): boolean {
  try {
    return localStorage.getItem(KEY) !== null;
  } catch {
    return false;
  }
}

export function rememberHere(): void {
  try {
    localStorage.setItem(KEY, 'yes');
  } catch {
    // A browser that keeps nothing fetches a moment later.
  }
}
