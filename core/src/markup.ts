/** Text inside markup: SVG, MusicXML, HTML. */

/** Text safe inside an element or an attribute in double quotes. */
export const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
