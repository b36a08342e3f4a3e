/** Which licence expressions may be shipped. */
import { expect, test } from 'vitest';
import { isAllowed, licenceOfText } from './licences.mjs';

test.each([
  { says: 'SPDX expression, one name', expression: 'MIT', may: true },
  { says: 'SPDX expression, one name', expression: 'LGPL-2.1-or-later', may: false },
  { says: 'SPDX expression, a choice', expression: '(GPL-3.0-only OR MIT)', may: true },
  { says: 'SPDX expression, both at once', expression: 'MIT AND GPL-3.0-only', may: false },
  { says: 'a package that tells no licence', expression: 'none told', may: false },
  { says: 'npm: a private package', expression: 'UNLICENSED', may: false },
])('$expression may be shipped: $may ($says)', ({ expression, may }) => {
  expect(isAllowed(expression)).toBe(may);
});

test.each([
  {
    says: 'text of the MIT licence (SPDX)',
    text: 'MIT License\n\nCopyright (c) 2017 X\n\nPermission is hereby granted, free of charge, to any person',
    licence: 'MIT',
  },
  { says: 'its title alone grants nothing', text: 'MIT License\n\nAll rights reserved', licence: null },
  { says: 'another licence', text: 'GNU LESSER GENERAL PUBLIC LICENSE', licence: null },
])('a LICENSE file says $licence ($says)', ({ text, licence }) => {
  expect(licenceOfText(text)).toBe(licence);
});
