/** Text broken into lines where a picture has no room for it on one. */

/** Lines of at most so many letters, broken between words; a longer word stands on a line of its own. */
export function brokenAt(text: string, most: number): readonly string[] {
  const rows: string[] = [''];
  for (const word of text.split(' ')) {
    const row = rows.at(-1)!;
    if (row !== '' && row.length + 1 + word.length > most) rows.push(word);
    else rows[rows.length - 1] = row === '' ? word : `${row} ${word}`;
  }
  return rows;
}

/** What does not fit is cut; the table says all of it. */
export const cutTo = (text: string, most: number): string => (text.length <= most ? text : `${text.slice(0, Math.max(1, most - 1)).trimEnd()}…`);

/** The same in so many lines at most, the last of them cut where more would follow. */
export function linesOf(text: string, { most, lines }: { readonly most: number; readonly lines: number }): readonly string[] {
  const broken = brokenAt(text, most);
  if (broken.length <= lines) return broken.map((line) => cutTo(line, most));
  return [...broken.slice(0, lines - 1), cutTo(broken.slice(lines - 1).join(' '), most)];
}
