/** A small reader of XML for the proofs: elements, attributes, text; no entities but the five of XML. */

/** One element. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  readonly text: string;
}

interface Open {
  readonly name: string;
  readonly attributes: Record<string, string>;
  readonly children: XmlElement[];
  text: string;
}

/** The outermost element of a document. */
export function readXml(source: string): XmlElement {
  const root: Open = { name: '', attributes: {}, children: [], text: '' };
  const open: Open[] = [root];
  for (const [, close, name, attributes, empty, text] of source.matchAll(
    /<(?:[?!][^>]*|(\/?)([\w:.-]+)((?:\s+[\w:.-]+="[^"]*")*)\s*(\/?))>|([^<]+)/g,
  )) {
    if (text !== undefined) open.at(-1)!.text += plain(text);
    else if (name === undefined) continue;
    else if (close) open.pop();
    else {
      const element: Open = { name, attributes: attributesIn(attributes ?? ''), children: [], text: '' };
      open.at(-1)!.children.push(element);
      if (!empty) open.push(element);
    }
  }
  return root.children[0]!;
}

const attributesIn = (text: string): Record<string, string> =>
  Object.fromEntries([...text.matchAll(/([\w:.-]+)="([^"]*)"/g)].map(([, name, value]) => [name!, plain(value!)]));

const plain = (text: string): string =>
  text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&apos;', "'").replaceAll('&amp;', '&');

/** Children of a name. */
export const all = (element: XmlElement, name: string): readonly XmlElement[] => element.children.filter((child) => child.name === name);

/** First child of a name. */
export const one = (element: XmlElement, name: string): XmlElement | undefined => element.children.find((child) => child.name === name);
