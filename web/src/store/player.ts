/** A player of this device, as the list has one. */

/** One who has a diary on this device: a name, or a pseudonym, and nothing else of them. */
export interface Player {
  readonly id: string;
  /** As typed; '' for the first player until there is a second. */
  readonly name: string;
  /** The database of the diary, by the name that `openStore` takes. */
  readonly storeName: string;
  readonly addedAtMs: number;
  /** When somebody last changed over to this diary; the next page without a player of its own opens the latest. */
  readonly openedAtMs: number;
  /** When the player was taken off the device; null for one who is here. */
  readonly offAtMs: number | null;
}
