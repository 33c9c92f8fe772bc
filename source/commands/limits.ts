/**
 * How much is read at most, in characters, so that no input takes all memory. Each can be set by a variable of
 * the environment; what is no whole number from 1,000 to 1,000,000,000 counts as not set.
 */
function limitFrom(name: string, fallback: number): { readonly name: string; readonly most: number } {
  const given = process.env[name] ?? '';
  const most = given !== '' && /^\d{4,10}$/.test(given) ? Number(given) : 0;
  return { name, most: most >= 1000 && most <= 1_000_000_000 ? most : fallback };
}

/** An input that has to be read as a whole: not one grid a line. */
export const fileLimit = limitFrom('INKLING_FILE_LIMIT', 10_000_000);

/** One line of an input. Of a longer one the rest is read and dropped. */
export const lineLimit = limitFrom('INKLING_LINE_LIMIT', 100_000);

/** The text of one grid, where it is not one line; 0: as much as the layout may need. */
export const gridLimit = limitFrom('INKLING_GRID_LIMIT', 0);

/** A paste into the workbench. */
export const pasteLimit = limitFrom('INKLING_PASTE_LIMIT', 1_048_576);

/** How a limit is raised, for people who met it. */
export const sayRaise = ({ name, most }: { readonly name: string; readonly most: number }): string => {
  const now = most > 0 ? `, now ${most.toLocaleString('en-US')}` : '';
  return `the environment variable ${name} sets how many are read${now}`;
};
