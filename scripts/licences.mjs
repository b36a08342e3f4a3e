/** Holds what is shipped to permissive licences: every package that a workspace needs when it runs. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** SPDX names of the licences that may be shipped. */
export const allowed = ['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', '0BSD', 'OFL-1.1', 'BlueOak-1.0.0'];

/**
 * Whether an SPDX expression leaves a permissive choice: one side of OR is enough, both sides of AND are needed.
 * @param {string} expression such as `(MIT OR GPL-3.0)`.
 */
export function isAllowed(expression) {
  const bare = expression.replace(/[()]/g, '').trim();
  if (/ OR /.test(bare)) return bare.split(/ OR /).some(isAllowed);
  if (/ AND /.test(bare)) return bare.split(/ AND /).every(isAllowed);
  return allowed.includes(bare);
}

/**
 * @param {string} root folder of package-lock.json, with node_modules installed.
 * @returns {{ checked: number, refused: string[] }} packages that run in the product, and those whose licence may not be shipped.
 */
function checkLicences(root) {
  const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
  const shipped = Object.entries(packages).filter(([place, entry]) => place.includes('node_modules/') && !entry.dev && !entry.link);
  const refused = shipped
    .map(([place, entry]) => ({ place, licence: installedLicence(root, place) ?? entry.license ?? 'none told' }))
    .filter(({ licence }) => !isAllowed(licence))
    .map(({ place, licence }) => `${place.replace(/^.*node_modules\//, '')}: ${licence}`);
  return { checked: shipped.length, refused };
}

/** What the installed package itself says, which is what would be shipped. */
function installedLicence(root, place) {
  try {
    const { license } = JSON.parse(readFileSync(join(root, place, 'package.json'), 'utf8'));
    return (typeof license === 'string' ? license : license?.type) ?? licenceOfText(readFileSync(join(root, place, 'LICENSE'), 'utf8'));
  } catch {
    return null;
  }
}

/**
 * Some packages name no licence and carry its text: the MIT licence is known by its title and its grant.
 * @param {string} text of a file called LICENSE.
 */
export const licenceOfText = (text) =>
  /^(The )?MIT License/.test(text) && text.includes('Permission is hereby granted, free of charge') ? 'MIT' : null;

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { checked, refused } = checkLicences(dirname(dirname(fileURLToPath(import.meta.url))));
  console.log(refused.length > 0 ? `These may not be shipped:\n${refused.join('\n')}` : `${checked} packages, all permissive.`);
  process.exitCode = refused.length > 0 || checked === 0 ? 1 : 0;
}
