/** Tabs and Workers of one diary tell each other that something was added. */

export interface Notices {
  /** Tells the others; listeners of this one are told too. */
  tell(): void;
  onChange(listener: () => void): () => void;
  close(): void;
}

/** Connects to all who have the database `name` open. */
export function noticesOf(name: string): Notices {
  const channel = new BroadcastChannel(`${name}:changed`);
  const listeners = new Set<() => void>();
  const tellHere = (): void => {
    for (const listener of listeners) listener();
  };
  channel.onmessage = tellHere;
  return {
    tell: () => {
      channel.postMessage('changed');
      tellHere();
    },
    onChange: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    close: () => channel.close(),
  };
}
