import type { OpenedTerminal } from '../platform/open-terminal.ts';

/** What of an opened terminal the workbench uses. It neither opens nor closes it. */
export type WorkbenchTerminal = Pick<
  OpenedTerminal,
  | 'ink'
  | 'keys'
  | 'listen'
  | 'size'
  | 'onResize'
  | 'quiet'
  | 'settleDown'
  | 'showLayer'
  | 'styleOf'
  | 'placeCursor'
  | 'flush'
  | 'redraw'
  | 'suspend'
>;
