/**
 * What the process says to the shell that started it. A signal that ends the process gives 128 + its number,
 * by the shell's own convention; `pipeClosed` is that number where the program ends by itself instead.
 */
export const exitCodes = {
  /** The answer is yes, or the work is done. */
  yes: 0,
  /** A negative answer: several solutions, no step, some lines bad. */
  no: 1,
  /** The command line or the input can't be used. */
  usage: 2,
  /** 128 + SIGINT: the workbench was left with Ctrl-C. */
  interrupted: 130,
  /** 128 + SIGPIPE: whoever read the results went away. */
  pipeClosed: 141,
} as const;

export type ExitCode = (typeof exitCodes)[keyof typeof exitCodes];
