import { describe, expect, test } from 'vitest';
import type { Ground, Role } from '../../source/terminal/screen.ts';
import { looks, makeTheme, tints } from '../../source/terminal/themes.ts';

/** Relative luminance and contrast of WCAG 2.1 (w3.org/TR/WCAG21, "relative luminance", "contrast ratio"). */
function luminance(hex: string): number {
  const value = Number.parseInt(hex.slice(1), 16);
  const parts = [value >> 16, (value >> 8) & 255, value & 255].map((part) => {
    const share = part / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2];
}
function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].toSorted((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

/** The colours of the 256 palette from 16 on, as xterm defines them (256colres.pl). */
function paletteHex(index: number): string {
  const hex = (parts: number[]) => `#${parts.map((part) => part.toString(16).padStart(2, '0')).join('')}`;
  if (index >= 232) return hex([0, 0, 0].map(() => 8 + 10 * (index - 232)));
  const step = (n: number) => (n === 0 ? 0 : 55 + 40 * n);
  const cube = index - 16;
  return hex([step(Math.floor(cube / 36)), step(Math.floor(cube / 6) % 6), step(cube % 6)]);
}

/** Foreground and background of a role on a ground, read back from the SGR parameters. */
function colours(sgr: string, background: 'dark' | 'light'): { fore: string; back: string } {
  const codes = sgr.split(';').map(Number);
  let fore = background === 'dark' ? '#ffffff' : '#000000';
  let back = background === 'dark' ? '#000000' : '#ffffff';
  for (let i = 0; i < codes.length; i += 1) {
    if (codes[i] !== 38 && codes[i] !== 48) continue;
    const direct = codes[i + 1] === 2;
    const hex = direct
      ? `#${codes
          .slice(i + 2, i + 5)
          .map((part) => part.toString(16).padStart(2, '0'))
          .join('')}`
      : paletteHex(codes[i + 2]);
    if (codes[i] === 38) fore = hex;
    else back = hex;
    i += direct ? 4 : 2;
  }
  return codes.includes(7) ? { fore: back, back: fore } : { fore, back };
}

const roles = Object.keys(looks) as Role[];
const grounds: readonly Ground[] = ['plain', 'tile', 'extra', 'cursor', 'house'];
/** Lines and dots carry no text: 3 is enough for them (WCAG 2.1, 1.4.11). */
const faint: ReadonlySet<Role> = new Set(['rule', 'struck']);

describe.each(['true', '256'] as const)('%s colours', (depth) => {
  test.each(['dark', 'light'] as const)('read well on a %s background', (background) => {
    const theme = makeTheme({ depth, background });
    const low: string[] = [];
    for (const role of roles) {
      for (const ground of grounds) {
        // Labels, rules and dim text never stand on a tint, but for the label of a named house.
        const offGrid = ['rule', 'label', 'dim', 'labelSlip', 'labelCursor', 'text', 'strong'].includes(role);
        if (offGrid && ground !== 'plain') continue;
        const { fore, back } = colours(theme.sgr(role, ground), background);
        const least = faint.has(role) || role === 'houseSign' ? 3 : 4.5;
        const ratio = contrast(fore, back);
        if (ratio < least) low.push(`${role} on ${ground}: ${ratio.toFixed(2)}`);
      }
    }
    expect(low).toEqual([]);
  });
});

describe.each([
  ['true', 4.5],
  ['256', 4.1],
] as const)('%s colours on an unknown background', (depth, least) => {
  test('read on black and on white, and tint nothing', () => {
    const theme = makeTheme({ depth, background: 'unknown' });
    expect(theme.tints).toBe(false);
    for (const background of ['dark', 'light'] as const) {
      for (const role of roles) {
        const { fore, back } = colours(theme.sgr(role, 'tile'), background);
        expect(contrast(fore, back), `${role} on ${background}`).toBeGreaterThanOrEqual(least);
        expect(theme.sgr(role, 'cursor')).toBe(theme.sgr(role, 'plain'));
      }
    }
  });
});

test('the contrasts that the study measured come out the same', () => {
  const on = (role: Role, side: 0 | 1) =>
    contrast(looks[role].fore?.[side] ?? '', side === 0 ? '#000000' : '#ffffff');
  const measured: [Role, number, number][] = [
    ['note', 7.5, 5.7],
    ['label', 6.1, 5.0],
    ['rule', 3.4, 3.2],
    ['ink', 9.1, 6.1],
    ['spot', 9.0, 6.1],
    ['slip', 7.3, 6.1],
  ];
  for (const [role, dark, light] of measured) {
    expect(on(role, 0), role).toBeCloseTo(dark, 1);
    expect(on(role, 1), role).toBeCloseTo(light, 1);
  }
  const chip = (role: Role) => contrast('#000000', looks[role].back?.[0] ?? '');
  expect(chip('factA')).toBeCloseTo(9.3, 1);
  expect(chip('factB')).toBeCloseTo(9.1, 1);
  expect(chip('factC')).toBeCloseTo(6.9, 1);
  expect(chip('placement')).toBeCloseTo(8.0, 1);
  expect(chip('overlooked')).toBeCloseTo(15.9, 1);
  expect(Object.keys(tints)).toEqual(['tile', 'extra', 'cursor', 'house']);
});

describe('without colours', () => {
  const theme = makeTheme({ depth: 'mono', background: 'dark' });

  test('no colour code is used, whatever the role', () => {
    for (const role of roles) {
      for (const ground of grounds) {
        for (const code of theme.sgr(role, ground).split(';'))
          expect(['', '1', '2', '4', '7', '9']).toContain(code);
      }
    }
  });

  test('given, ink, note, spot, slip, fact, strike and placement differ by attributes or sign', () => {
    // The sign stands beside the digit; ink is underlined over three columns, a spot under its digit alone.
    const shown = {
      given: theme.sgr('given', 'plain'),
      ink: `${theme.sgr('ink', 'plain')} three columns`,
      note: theme.sgr('note', 'plain'),
      noteWoven: theme.sgr('noteWoven', 'plain'),
      spot: theme.sgr('spot', 'plain'),
      pending: `${theme.sgr('pending', 'plain')} ?`,
      slip: `${theme.sgr('slip', 'plain')} !`,
      fact: `${theme.sgr('factA', 'plain')} A`,
      strike: `${theme.sgr('strike', 'plain')} x`,
      out: `${theme.sgr('outAlready', 'plain')} /`,
      placement: `${theme.sgr('placement', 'plain')} =`,
      overlooked: `${theme.sgr('overlooked', 'plain')} *`,
      found: theme.sgr('foundMark', 'plain'),
      foundPlaced: theme.sgr('foundPlaced', 'plain'),
      tag: `${theme.sgr('tagFirst', 'plain')} m`,
    };
    const values = Object.values(shown);
    expect(values.filter((value, index) => values.indexOf(value) !== index)).toEqual([]);
    // And by attributes alone where there is no sign.
    expect(
      new Set([shown.given, shown.note, shown.noteWoven, shown.spot, shown.found, shown.foundPlaced]).size,
    ).toBe(6);
  });

  test('sixteen colours on an unknown background take no hue', () => {
    const unknown = makeTheme({ depth: '16', background: 'unknown' });
    for (const role of roles) expect(unknown.sgr(role, 'tile')).toBe(theme.sgr(role, 'tile'));
  });
});

test('the Linux console gets no crossed-out, no italics, no bright backgrounds', () => {
  const theme = makeTheme({ depth: '16', background: 'dark', linuxConsole: true });
  for (const role of roles) {
    for (const code of theme.sgr(role, 'plain').split(';')) {
      expect(['9', '3']).not.toContain(code);
      expect(code).not.toMatch(/^10\d$/);
    }
  }
});

test('nothing blinks', () => {
  for (const depth of ['mono', '16', '256', 'true'] as const) {
    for (const role of roles) {
      const sgr = makeTheme({ depth, background: 'dark' }).sgr(role, 'plain');
      expect(sgr.replace(/[34]8;(5;\d+|2;\d+;\d+;\d+)/g, '').split(';')).not.toContain('5');
    }
  }
});
