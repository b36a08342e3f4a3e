/** Puts the content security policy into the built page; the page under development stays open for vite's own scripts. */
import type { Plugin } from 'vite';
import { PAGE_POLICY } from '../../adapters/src/policy/index.ts';

export function policyPlugin(): Plugin {
  return {
    name: 'evenhand-policy',
    apply: 'build',
    transformIndexHtml: () => [{ tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: PAGE_POLICY }, injectTo: 'head-prepend' }],
  };
}
