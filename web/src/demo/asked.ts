/** The demo is asked for in the address, so that everything of it is loaded apart from the drummer's own diary. */

/** Database of the demo; nothing of it stands anywhere else. */
export const DEMO_NAME = 'evenhand-demo';

/** Address of the demo for whoever has read the cautions. */
export const DEMO_ADDRESS = './?demo=read';

/** What an address asks for: null for the drummer's own diary; in the demo, whether the cautions were read on the way. */
export function demoAsked(search: string): { readonly cautionsRead: boolean } | null {
  const value = new URLSearchParams(search).get('demo');
  return value === null ? null : { cautionsRead: value === 'read' };
}
