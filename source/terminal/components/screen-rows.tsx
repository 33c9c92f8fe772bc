import { Box, Text } from 'ink';
import { memo, type ReactNode } from 'react';
import { rowText } from '../row-text.ts';
import type { Screen } from '../screen.ts';
import type { Theme } from '../themes.ts';

/** One row of the screen. Drawn anew only where its text or colours change. */
const Row = memo(function Row({ text }: { readonly text: string }): ReactNode {
  return <Text wrap="truncate">{text === '' ? ' ' : text}</Text>;
});

export interface ScreenRowsProps {
  readonly screen: Screen;
  readonly theme: Theme;
  /** Stands in place of one row. */
  readonly over?: { readonly y: number; readonly row: ReactNode } | undefined;
}

/** A drawn screen as Ink text, a row a line. */
export function ScreenRows({ screen, theme, over }: ScreenRowsProps): ReactNode {
  return (
    <Box flexDirection="column" width={screen.width}>
      {screen.rows.map((row, y) => {
        const key = `row ${y}`;
        if (over?.y === y) return <Box key={key}>{over.row}</Box>;
        return <Row key={key} text={rowText(row, theme)} />;
      })}
    </Box>
  );
}
