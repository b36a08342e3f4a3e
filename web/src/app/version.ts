/** The version of the app, as its package says. */
export { version } from '../../package.json';
