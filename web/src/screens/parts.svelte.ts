/** Screens that are fetched when they are first shown, or a moment before, when somebody reaches for them. */
import type { Component } from 'svelte';
import { atRest } from '../app/atrest.ts';

export interface Part<Props extends Record<string, unknown>> {
  /** Null until it was fetched. */
  readonly shown: Component<Props> | null;
  /** It could not be fetched when it was last asked for. */
  readonly missing: boolean;
  /** Fetches it once; asked again after a failure it tries again. */
  fetch(): Promise<void>;
}

function part<Props extends Record<string, unknown>>(way: () => Promise<{ readonly default: Component<Props> }>): Part<Props> {
  let shown = $state.raw<Component<Props> | null>(null);
  let missing = $state(false);
  let coming: Promise<void> | null = null;
  return {
    get shown() {
      return shown;
    },
    get missing() {
      return missing;
    },
    fetch() {
      coming ??= way().then(
        (module) => {
          missing = false;
          shown = module.default;
        },
        () => {
          missing = true;
          coming = null;
        },
      );
      return coming;
    },
  };
}

/** Every screen but the first two. */
export const screenParts = {
  heard: part(() => import('./Heard.svelte')),
  shelf: part(() => import('./Shelf.svelte')),
  plan: part(() => import('./Plan.svelte')),
  session: part(() => import('./Session.svelte')),
  diary: part(() => import('./Diary.svelte')),
  progress: part(() => import('./Progress.svelte')),
} as const;

export const settingsPart = part(() => import('./Settings.svelte'));
export const playersPart = part(() => import('./Players.svelte'));
export const replacingPart = part(() => import('./Replacing.svelte'));
export const givenPart = part(() => import('./Given.svelte'));

/** Fetches what may be asked for next, one after another, while nothing else is to be done. */
export function fetchAtRest(): void {
  const [first, ...others] = [...Object.values(screenParts), settingsPart].filter(({ shown, missing }) => shown === null && !missing);
  if (first) atRest(() => void first.fetch().then(() => others.length > 0 && fetchAtRest()));
}
