/** Tells TypeScript what vite gives for imports such as `./click.worklet.ts?worker&url`. */
/// <reference types="vite/client" />
