import type { App } from './app-state.ts';

const mostLines = 100;

/** The workbench with a line kept, to be called up again. The same one twice in a row is kept once. */
export function keepLine(app: App, text: string): App {
  const line = text.trim();
  if (line === '' || app.typedLines[0] === line) return app;
  return { ...app, typedLines: [line, ...app.typedLines].slice(0, mostLines) };
}

/** The line before in place of the one that is being typed, or the one after; after the last an empty one. */
export function recall(app: App, by: 1 | -1): App {
  const { mode, typedLines } = app;
  if (mode.kind !== 'typed') return app;
  const back = (mode.back ?? -1) + by;
  if (back < -1 || back >= typedLines.length) return app;
  const entries = mode.entries + 1;
  if (back === -1) return { ...app, mode: { kind: 'typed', text: '', entries } };
  return { ...app, mode: { kind: 'typed', text: typedLines[back], entries, back } };
}
