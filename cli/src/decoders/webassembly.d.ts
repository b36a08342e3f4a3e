/** What Node offers of WebAssembly, as far as it is used here; TypeScript knows it only for browsers. */
declare namespace WebAssembly {
  interface Memory {
    readonly buffer: ArrayBuffer;
  }
  class Module {
    private readonly compiled: true;
  }
  class Instance {
    constructor(module: Module, imports: Readonly<Record<string, never>>);
    readonly exports: unknown;
  }
  function compile(bytes: Uint8Array): Promise<Module>;
}
