import { Screen, visible } from '../pty/screen.ts';

type Picture = ReturnType<Screen['picture']>['cells'];
type Cell = Picture[number][number];

interface Pen {
  /** -1 where terminals may differ about the width of what was written last. */
  readonly x: number;
  readonly y: number;
  readonly style: ReadonlyMap<string, string>;
}

/** Where these bytes leave the cursor and in which style, told by an emulator that writes one more cell. */
export async function penAfter(bytes: string, columns: number, rows: number): Promise<Pen> {
  const screen = new Screen(columns, rows);
  await screen.write(bytes);
  const { x, y } = screen.cursor();
  const last = x > 0 && x < columns ? screen.cell(x - 1, y) : undefined;
  await screen.write('\x1b[HX');
  return { x: last && [...last.text].length > 1 ? -1 : x, y, style: wanted(screen.cell(0, 0)) };
}

/** Everything about a cell's style, one word an attribute, as SGR sets it from the plain style. */
function wanted(cell: Cell): Map<string, string> {
  const set = new Map<string, string>();
  const colour = (at: Cell['foreground'], base: number): string | undefined => {
    if (at.kind === 'default') return undefined;
    if (at.kind === 'rgb') return `${base + 8};2;${at.red};${at.green};${at.blue}`;
    // The emulator does not tell index 0-15 from the sixteen; the test's frames use no such index.
    if (at.index >= 16) return `${base + 8};5;${at.index}`;
    return String(at.index < 8 ? base + at.index : base + 52 + at.index);
  };
  const attributes = { bold: '1', dim: '2', italic: '3', underline: '4', inverse: '7', strike: '9' } as const;
  for (const [name, on] of Object.entries(attributes)) {
    if (cell[name as keyof typeof attributes]) set.set(name, on);
  }
  const foreground = colour(cell.foreground, 30);
  const background = colour(cell.background, 40);
  if (foreground !== undefined) set.set('foreground', foreground);
  if (background !== undefined) set.set('background', background);
  return set;
}

const offCodes: Readonly<Record<string, string>> = {
  bold: '22',
  dim: '22',
  italic: '23',
  underline: '24',
  inverse: '27',
  strike: '29',
  foreground: '39',
  background: '49',
};

/** The fewest bytes of SGR between two styles: from nothing, or by taking back and adding. */
function renditionCost(from: ReadonlyMap<string, string>, to: ReadonlyMap<string, string>): number {
  const anew = [...to.values()];
  const offs = new Set<string>();
  for (const name of from.keys()) {
    // A colour that is only changed needs no taking back.
    if (!to.has(name)) offs.add(offCodes[name]!);
  }
  const adds = [...to]
    .filter(([name, on]) => from.get(name) !== on || offs.has(offCodes[name]!))
    .map(([, on]) => on);
  const change = [...offs, ...adds];
  if (change.length === 0) return 0;
  const cost = (parameters: readonly string[]) => 3 + parameters.join(';').length;
  return Math.min(cost(change), anew.length === 0 ? 3 : 1 + cost(anew));
}

function moveCost(from: { x: number; y: number }, to: { x: number; y: number }): number {
  if (from.x === to.x && from.y === to.y) return 0;
  const column = to.x + 1;
  const line = to.y === 0 ? '' : String(to.y + 1); // left out, it is 1
  const full = column === 1 ? 3 + line.length : 4 + line.length + String(column).length;
  if (from.x < 0) return full;
  const costs = [full];
  if (from.y === to.y) costs.push(column === 1 ? 1 : 3 + String(column).length);
  if (to.x === 0 && to.y === from.y + 1) costs.push(2);
  if (from.x === to.x) costs.push(3 + line.length);
  return Math.min(...costs);
}

/** Whether a cell is a blank that a pen in this style leaves as it is to be. */
function isBlankIn(cell: Cell, style: ReadonlyMap<string, string>): boolean {
  const lines = ['underline', 'inverse', 'strike'];
  if (cell.text !== ' ' || lines.some((name) => style.has(name) || wanted(cell).has(name))) return false;
  return style.get('background') === wanted(cell).get('background');
}

/** The styles in which a cell may best be written: its own; for a blank, the least, and those of signs to come. */
function stylesFor(row: readonly Cell[], x: number): ReadonlyMap<string, string>[] {
  const cell = row[x]!;
  if (cell.text !== ' ') return [wanted(cell)];
  const least = wanted(visible(cell));
  const next = row.slice(x + 1).find((each) => each.text !== ' ');
  if (!next || !isBlankIn(cell, wanted(next))) return [least];
  return [least, wanted(next)];
}

/**
 * The fewest bytes from one picture to the other in reading order, by the shortest path over all ways to
 * write or pass over the unchanged cells; a tail of plain blanks may be erased.
 */
export function leastBytes(before: Picture, after: Picture, start: Pen): number {
  interface State extends Pen {
    readonly cost: number;
  }
  const key = (state: State) => `${state.x} ${state.y} ${JSON.stringify([...state.style])}`;
  let states: State[] = [{ ...start, cost: 0 }];
  let changes = 0;
  for (let y = 0; y < after.length; y++) {
    const row = after[y]!;
    const isPlain = (cell: Cell) => cell.text === ' ' && wanted(visible(cell)).size === 0;
    let tail = row.length;
    while (tail > 0 && isPlain(row[tail - 1]!)) tail--;
    const differs = (x: number) =>
      JSON.stringify(visible(row[x]!)) !== JSON.stringify(visible(before[y]![x]!));
    let lastChange = row.length - 1;
    while (lastChange >= 0 && !differs(lastChange)) lastChange--;
    if (lastChange < 0) continue;
    changes++;
    let firstErased = tail;
    while (firstErased < row.length && !differs(firstErased)) firstErased++;
    const finished: State[] = [];
    for (let x = 0; x <= lastChange; x++) {
      if (x === firstErased) {
        for (const state of states) {
          const cost = state.cost + moveCost(state, { x, y }) + renditionCost(state.style, new Map()) + 3;
          finished.push({ x, y, style: new Map(), cost });
        }
      }
      const cell = row[x]!;
      if (cell.width === 0) continue;
      const changed = differs(x) || (cell.width === 2 && differs(x + 1));
      const styles = stylesFor(row, x);
      const next = new Map<string, State>();
      const keep = (state: State) => {
        const old = next.get(key(state));
        if (!old || old.cost > state.cost) next.set(key(state), state);
      };
      for (const state of states) {
        if (!changed) keep(state);
        if (!changed && (state.y !== y || state.x !== x)) continue; // jumping to write what stands there never pays
        const own = isBlankIn(cell, state.style) ? [state.style, ...styles] : styles;
        for (const style of own) {
          const cost =
            state.cost +
            moveCost(state, { x, y }) +
            renditionCost(state.style, style) +
            Buffer.byteLength(cell.text);
          keep({ x: [...cell.text].length > 1 ? -1 : x + cell.width, y, style, cost });
        }
      }
      const cheapest = Math.min(...[...next.values()].map(({ cost }) => cost));
      // A state that is dearer by more than any move and style together can cost will never win.
      states = [...next.values()].filter(({ cost }) => cost <= cheapest + 64);
    }
    states = [...states, ...finished];
  }
  return changes === 0 ? 0 : Math.min(...states.map(({ cost }) => cost));
}
