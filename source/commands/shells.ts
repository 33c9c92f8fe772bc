/** The shells that the program can complete itself in. */
export const shells = ['bash', 'zsh', 'fish'] as const;
export type Shell = (typeof shells)[number];
