import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { drawPicture } from '../../docs/picture.ts';
import { renderScenes } from '../../docs/render.ts';
import { Screen } from './screen.ts';

async function picture(bytes: string, columns = 12, rows = 4, theme: 'dark' | 'light' = 'dark') {
  const screen = new Screen(columns, rows);
  await screen.write(bytes);
  return drawPicture(screen.picture(), { title: 'a & b', theme, cursor: false });
}

test('colours of every depth, inverse and dim', async () => {
  const svg = await picture('\x1b[31ma\x1b[38;5;214mb\x1b[38;2;1;2;3mc\x1b[0;2md\x1b[0;7me\x1b[0;97mf');
  const fills = [...svg.matchAll(/<g fill="(#\w+)">\n<text[^>]*>(\w)/g)].map(
    ([, fill, sign]) => `${sign} ${fill}`,
  );
  // 214 of the 256 palette is #ffaf00 (xterm's 256colres.h); dim is 60 % of the default on the background.
  expect(fills).toEqual(['a #cd0000', 'b #ffaf00', 'c #010203', 'd #858585', 'e #000000', 'f #ffffff']);
  expect(svg).toContain('<rect x="40" y="0" width="10" height="21" fill="#dedede"/>');
});

test('one rectangle a run of background', async () => {
  const svg = await picture('\x1b[44mab\x1b[42mc\x1b[0md');
  expect(svg.match(/<rect x="\d+" y="0"/g)).toHaveLength(2);
  expect(svg).toContain('<rect x="0" y="0" width="20" height="21" fill="#0000ee"/>');
});

test('lines join from cell to cell, across and down', async () => {
  const svg = await picture('───┼──\r\n   │\r\n   │');
  // One stroke along the first row, one from its middle to the end of the third.
  expect(svg.match(/<path /g)).toHaveLength(1);
  expect(svg).toContain('d="M0 10.5H60M35 0V63"');
});

test('light and heavy ends and corners', async () => {
  const svg = await picture('╺┓\r\n ┃\r\n╺┻╸');
  const heavy = /stroke-width="3.4" d="([^"]*)"/.exec(svg)![1]!;
  // The stem from the corner down through the third row's middle; strokes begin in the middle of ╺.
  expect(heavy).toContain('M5 10.5H16.7');
  expect(heavy).toContain('M15 8.8V54.2');
  expect(heavy).toContain('M5 52.5H25');
});

test('half blocks are halves of their cells', async () => {
  const svg = await picture('▐▌');
  expect(svg).toContain('<rect x="5" y="0" width="5" height="21"');
  expect(svg).toContain('<rect x="10" y="0" width="5" height="21"');
});

test('words stand in the middle of their cells, wide signs on two, and are escaped', async () => {
  const svg = await picture('a<日&');
  expect(svg).toContain(
    '<text x="25" y="15.7" textLength="50" lengthAdjust="spacingAndGlyphs">a&lt;日&amp;</text>',
  );
  expect(await picture('日 é')).toContain('<text x="35" y="15.7">é</text>');
  expect(svg).toContain('<title>a &amp; b</title>');
});

test('underline, strike and weight', async () => {
  const svg = await picture('\x1b[4mab\x1b[0m \x1b[1;9mc\x1b[0;3md');
  expect(svg).toContain('d="M0 18.5H20M30 10.7H40"');
  expect(svg).toMatch(/font-weight="700">\n<text[^>]*>c</);
  expect(svg).toMatch(/font-style="italic">\n<text[^>]*>d</);
});

test('the same screen gives the same text', async () => {
  const bytes = '\x1b[1;31mab┏━┓\x1b[0m';
  expect(await picture(bytes)).toBe(await picture(bytes));
});

test('a scene is played and its screen written', async () => {
  const directory = mkdtempSync(join(tmpdir(), 'inkling-scenes-'));
  try {
    const play = async (app: Parameters<Parameters<typeof renderScenes>[0][number]['play']>[0]) => {
      app.type('7\n');
      await app.waitFor('got 7');
    };
    const command = ['/bin/sh', '-c', 'read x; printf "got $x"; read x'];
    await renderScenes([{ name: 'scene', title: 'A scene', cols: 20, rows: 3, command, play }], directory);
    expect(readFileSync(join(directory, 'scene.svg'), 'utf8')).toMatch(
      /<title>A scene<[\s\S]*>got<[\s\S]*>7</,
    );
  } finally {
    rmSync(directory, { recursive: true, force: true });
  }
});
