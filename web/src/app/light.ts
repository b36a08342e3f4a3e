/** Light or dark: kept apart from the diary, because it belongs to the device and is needed before anything is drawn. */

export const LIGHTS = ['system', 'light', 'dark'] as const;

export type Light = (typeof LIGHTS)[number];

const KEY = 'evenhand-light';

/** What the player chose, `system` when nothing. */
export function chosenLight(): Light {
  const stored = readStored();
  return stored === 'light' || stored === 'dark' ? stored : 'system';
}

/** Chooses, keeps and shows. */
export function chooseLight(light: Light): void {
  try {
    localStorage.setItem(KEY, light);
  } catch {
    // A browser that keeps nothing still shows the choice until it is closed.
  }
  showLight(light);
}

/** Shows the choice and follows the device while it is `system`. */
export function followLight(): void {
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => showLight(chosenLight()));
  showLight(chosenLight());
}

function showLight(light: Light): void {
  const dark = light === 'system' ? matchMedia('(prefers-color-scheme: dark)').matches : light === 'dark';
  document.documentElement.dataset.light = dark ? 'dark' : 'light';
}

function readStored(): string | null {
  try {
    return localStorage.getItem(KEY);
  } catch {
    return null;
  }
}
