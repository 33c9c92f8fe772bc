import { Box, Text } from 'ink';
import TextInput from 'ink-text-input';
import type { ReactNode } from 'react';

export interface TypedLineProps {
  readonly text: string;
  /** Columns before the prompt. */
  readonly indent: number;
  readonly onChange: (text: string) => void;
  readonly onSubmit: (text: string) => void;
}

/** The line in which moves and commands are typed, behind its prompt. */
export function TypedLine({ text, indent, onChange, onSubmit }: TypedLineProps): ReactNode {
  return (
    <Box marginLeft={indent}>
      <Text bold>: </Text>
      <TextInput value={text} onChange={onChange} onSubmit={onSubmit} />
    </Box>
  );
}
