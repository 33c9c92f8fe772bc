import { Box, Text, useInput } from 'ink';
import TextInput from 'ink-text-input';
import { type ReactNode, useInsertionEffect, useState } from 'react';

export interface TypedLineProps {
  readonly text: string;
  /** Columns before the prompt. */
  readonly indent: number;
  readonly onChange: (text: string) => void;
  readonly onSubmit: (text: string) => void;
  /** Told at which column the line's cursor stands, whenever that changes. */
  readonly onCursor: (column: number) => void;
}

const prompt = ': ';

/**
 * The line in which moves and commands are typed, behind its prompt. The text input keeps its cursor to
 * itself, so this follows it by the same rules, in order to put the terminal's own cursor there too.
 */
export function TypedLine({ text, indent, onChange, onSubmit, onCursor }: TypedLineProps): ReactNode {
  const [at, setAt] = useState(text.length);
  useInput((_, key) => {
    if (key.leftArrow) setAt((before) => Math.max(0, before - 1));
    if (key.rightArrow) setAt((before) => Math.min(text.length, before + 1));
  });
  const change = (next: string) => {
    setAt((before) => Math.max(0, Math.min(next.length, before + next.length - text.length)));
    onChange(next);
  };
  useInsertionEffect(() => {
    onCursor(indent + prompt.length + at);
  }, [onCursor, indent, at]);
  return (
    <Box marginLeft={indent} height={1} overflow="hidden">
      <Text bold>{prompt}</Text>
      <TextInput value={text} onChange={change} onSubmit={onSubmit} />
    </Box>
  );
}
