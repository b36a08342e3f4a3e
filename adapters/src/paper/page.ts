/// <reference path="./pdfkit.d.ts" />
/** A PDF that is written from top to bottom: faces, page breaks, page numbers, and the structure that screen readers read. */
import type { Language } from '@evenhand/core/words';
import type PDFDocument from 'pdfkit';
import type { StructureElement, TextOptions } from 'pdfkit';
import { joined } from '../joined.ts';
import { PAPERS, type PaperSize } from '../paper-size/index.ts';
import { faces } from './faces.ts';
import { MARGIN, SMALL_SIZE } from './parameters.ts';

/** The two weights there are. */
export type Face = 'regular' | 'semibold';

/** A document with a place where the next thing goes. */
export interface Paper {
  readonly doc: PDFDocument;
  readonly root: StructureElement;
  /** Left edge and width of what is printed, points. */
  readonly left: number;
  readonly width: number;
  /** Height of the page, its margins included, points. */
  readonly pageHeight: number;
  /** Type is so much larger or smaller than asked for. */
  readonly scale: number;
  /** Height on the present page where the next thing goes. */
  y: number;
  /** Pages so far. */
  pageCount: number;
  /** Begins another page unless so much room is left. */
  need(height: number): void;
  /** Room left on this page. */
  room(): number;
  /** The bytes, once everything is drawn. */
  finish(): Promise<Uint8Array>;
}

/** What may be said of everything that is printed. */
export interface PrintedAs {
  /** Language of its words; English unless said. */
  readonly language?: Language;
  /** What it is printed on; A4 unless said. */
  readonly size?: PaperSize | undefined;
  /** When it is made, ms since 1970: stands in the file. */
  readonly madeMs: number;
}

/** What a document says of itself. */
export interface PaperInfo extends PrintedAs {
  readonly title: string;
  /** What stands at the foot of a page. */
  readonly foot: (page: number) => string;
  /** Type is so much larger or smaller than asked for; 1 unless said. */
  readonly scale?: number;
}

/** A blank document. */
export async function openPaper(info: PaperInfo): Promise<Paper> {
  const { width: pageWidth, height: pageHeight } = PAPERS[info.size ?? 'a4'];
  const doc = await openDocument(info, [pageWidth, pageHeight]);
  const bytes = collected(doc);
  const { regular, semibold } = faces();
  doc.registerFont('regular', regular).registerFont('semibold', semibold);
  const root = doc.struct('Document');
  doc.addStructure(root);
  const bottom = pageHeight - MARGIN;
  drawFoot(doc, info.foot(1));
  const paper: Paper = {
    doc,
    root,
    left: MARGIN,
    width: pageWidth - 2 * MARGIN,
    pageHeight,
    scale: info.scale ?? 1,
    y: MARGIN,
    pageCount: 1,
    need: (height) => {
      if (paper.y + height <= bottom || paper.y === MARGIN) return;
      doc.addPage();
      paper.pageCount += 1;
      drawFoot(doc, info.foot(paper.pageCount));
      paper.y = MARGIN;
    },
    room: () => bottom - paper.y,
    finish: () => {
      root.end();
      doc.end();
      return bytes;
    },
  };
  return paper;
}

async function openDocument({ title, language = 'en', madeMs }: PaperInfo, size: [width: number, height: number]): Promise<PDFDocument> {
  const { default: Document } = await import('pdfkit');
  return new Document({
    size,
    margin: 0,
    font: null,
    pdfVersion: '1.7',
    tagged: true,
    lang: language,
    displayTitle: true,
    info: { Title: title, Creator: 'Evenhand', CreationDate: new Date(madeMs) },
  });
}

function drawFoot(doc: PDFDocument, text: string): void {
  doc.markContent('Artifact', { type: 'Pagination' });
  doc.font('regular').fontSize(SMALL_SIZE);
  doc.text(text, MARGIN, doc.page.height - MARGIN + 12, { width: doc.page.width - 2 * MARGIN, align: 'right', lineBreak: false });
  doc.endMarkedContent();
}

function collected(doc: PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const parts: Uint8Array[] = [];
    doc.on('data', (part) => parts.push(part));
    doc.on('error', reject);
    doc.on('end', () => resolve(joined(parts)));
  });
}

/** A line or paragraph under what is there, as a heading or text of the structure. */
export function write(
  paper: Paper,
  text: string,
  { tag, face, size, indent = 0 }: { readonly tag: string; readonly face: Face; readonly size: number; readonly indent?: number },
): void {
  const { doc } = paper;
  const scaled = size * paper.scale;
  const options: TextOptions = { width: paper.width - indent, lineGap: scaled * 0.15 };
  const y = paper.y;
  const height = heightOf(paper, text, { face, size, indent });
  paper.root.add(
    doc.struct(tag, () => {
      doc
        .font(face)
        .fontSize(scaled)
        .text(text, paper.left + indent, y, options);
    }),
  );
  paper.y += height;
}

/** Height a paragraph takes. */
export function heightOf(
  { doc, width, scale }: Paper,
  text: string,
  set: { readonly face: Face; readonly size: number; readonly indent?: number },
): number {
  const size = set.size * scale;
  return doc
    .font(set.face)
    .fontSize(size)
    .heightOfString(text, { width: width - (set.indent ?? 0), lineGap: size * 0.15 });
}
