/** Keeps the keyboard's place: when what has the focus is taken away, the nearest that is left gets it, never the empty page. */

const FOCUSABLE = 'button:enabled, a[href], input:enabled, select:enabled, textarea:enabled, summary, [tabindex]';

/** What had the focus last: itself and what it stood in, the nearest first. */
interface Held {
  readonly chain: readonly HTMLElement[];
  /** Came there by keyboard: then the next place is scrolled to as well. */
  readonly byKeyboard: boolean;
}

/** Watches over everything in `root`, as a Svelte attachment. */
export function keepFocus(root: HTMLElement): () => void {
  let held: Held | null = null;

  const note = ({ target }: FocusEvent): void => {
    held = { chain: chainOf(target as HTMLElement, root), byKeyboard: (target as HTMLElement).matches(':focus-visible') };
  };
  /** Left for nothing, and still there: whoever did that meant it. */
  const forget = ({ target, relatedTarget }: FocusEvent): void => {
    if (relatedTarget !== null) return;
    queueMicrotask(() => {
      if ((target as HTMLElement).isConnected && document.hasFocus()) held = null;
    });
  };
  const watch = new MutationObserver(() => {
    if (!held || held.chain[0]!.isConnected || document.activeElement !== document.body) return;
    const near = held.chain.slice(1).find((one) => one.isConnected && one.querySelector(FOCUSABLE));
    near?.querySelector<HTMLElement>(FOCUSABLE)?.focus({ preventScroll: !held.byKeyboard });
  });
  root.addEventListener('focusin', note);
  root.addEventListener('focusout', forget);
  watch.observe(root, { childList: true, subtree: true });
  return () => {
    root.removeEventListener('focusin', note);
    root.removeEventListener('focusout', forget);
    watch.disconnect();
  };
}

function chainOf(element: HTMLElement, root: HTMLElement): readonly HTMLElement[] {
  const parent = element.parentElement;
  return element === root || !parent ? [element] : [element, ...chainOf(parent, root)];
}
