/** The pictures of the core, fetched once: when the first one comes into view, or while the page rests. */

type Pictures = typeof import('@evenhand/core/picture');

let fetched: Pictures | null = null;

/** Null until they were fetched. */
export const pictures = (): Pictures | null => fetched;

/** Without a network they may not come: then they are asked for again. */
export const fetchPictures = (): Promise<Pictures | null> =>
  import('@evenhand/core/picture').then(
    (loaded) => {
      fetched = loaded;
      return loaded;
    },
    () => null,
  );
