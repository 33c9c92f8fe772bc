import { render, useInput } from 'ink';
import type { ReactNode } from 'react';
import { useSyncExternalStore } from 'react';
import { ScreenRows } from '../../source/terminal/components/screen-rows.tsx';
import { draw } from '../../source/terminal/draw.ts';
import { makeTheme } from '../../source/terminal/themes.ts';
import { openBench, sheetOf } from '../terminal/bench.ts';

/*
 * The same workbench as stock Ink draws it on a terminal of its own, each key handed on as it comes: what the
 * benchmark measures the real one against.
 */

const names: Readonly<Record<string, string>> = {
  leftArrow: 'left',
  rightArrow: 'right',
  upArrow: 'up',
  downArrow: 'down',
};
const { columns = 80, rows = 24 } = process.stdout;
const bench = openBench(sheetOf(process.argv[2]), columns, rows);
const theme = makeTheme({ depth: 'true', background: 'dark' });

function Stock(): ReactNode {
  const app = useSyncExternalStore(bench.store.subscribe, bench.app);
  useInput((input, key) => {
    const arrow = Object.entries(names).find(([name]) => Reflect.get(key, name) === true)?.[1];
    bench.store.send({ kind: 'key', chord: arrow ?? input });
  });
  return <ScreenRows screen={draw(app, { ascii: false, tints: true, digits: 'large' })} theme={theme} />;
}

render(<Stock />, { maxFps: 250 });
