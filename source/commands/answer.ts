/** What a one-shot command has to say of one grid. */
export interface Answer {
  readonly json: Readonly<Record<string, unknown>>;
  readonly lines: readonly string[];
  /** Whether it is a negative answer. */
  readonly negative: boolean;
  /** Something the person should know that is no result. */
  readonly notice?: string;
}
