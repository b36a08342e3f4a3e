/** What we use of pdfkit 0.20, which carries no types: pages, paths, text, and the structure that screen readers read. */
declare module 'pdfkit' {
  export type Content = () => void;

  export interface StructureElement {
    add(child: StructureElement | Content): StructureElement;
    end(): StructureElement;
  }

  export interface TextOptions {
    readonly width?: number;
    readonly align?: 'left' | 'center' | 'right';
    readonly lineBreak?: boolean;
    readonly lineGap?: number;
    readonly baseline?: 'alphabetic' | number;
    readonly fill?: boolean;
    readonly stroke?: boolean;
  }

  export default class PDFDocument {
    constructor(options: Readonly<Record<string, unknown>>);
    readonly page: { readonly width: number; readonly height: number };
    on(event: 'data', take: (bytes: Uint8Array) => void): this;
    on(event: 'end', done: () => void): this;
    on(event: 'error', failed: (error: unknown) => void): this;
    end(): void;
    addPage(): this;
    registerFont(name: string, source: Uint8Array): this;
    font(name: string): this;
    fontSize(size: number): this;
    text(text: string, x: number, y: number, options?: TextOptions): this;
    heightOfString(text: string, options?: TextOptions): number;
    widthOfString(text: string): number;
    save(): this;
    restore(): this;
    translate(x: number, y: number): this;
    scale(factor: number): this;
    path(d: string): this;
    rect(x: number, y: number, width: number, height: number): this;
    moveTo(x: number, y: number): this;
    lineTo(x: number, y: number): this;
    lineWidth(width: number): this;
    fillOpacity(share: number): this;
    strokeOpacity(share: number): this;
    fill(): this;
    stroke(): this;
    clip(): this;
    struct(type: string, options?: Readonly<Record<string, unknown>> | Content, children?: Content): StructureElement;
    addStructure(element: StructureElement): this;
    markContent(tag: string, options?: Readonly<Record<string, unknown>>): this;
    endMarkedContent(): this;
  }
}
