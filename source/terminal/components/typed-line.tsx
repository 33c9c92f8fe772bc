import { Box, Text, useInput } from 'ink';
import TextInput from 'ink-text-input';
import { type ReactNode, useInsertionEffect, useState } from 'react';
import { displayWidth } from '../../text/width.ts';

export interface TypedLineProps {
  readonly text: string;
  /** Columns before the prompt. */
  readonly indent: number;
  /** Columns for the text and the cursor behind it; of a longer line the part around the cursor shows. */
  readonly room: number;
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
export function TypedLine({ text, indent, room, onChange, onSubmit, onCursor }: TypedLineProps): ReactNode {
  const [at, setAt] = useState(text.length);
  useInput((_, key) => {
    if (key.leftArrow) setAt((before) => Math.max(0, before - 1));
    if (key.rightArrow) setAt((before) => Math.min(text.length, before + 1));
  });
  const change = (next: string) => {
    setAt((before) => Math.max(0, Math.min(next.length, before + next.length - text.length)));
    onChange(next);
  };
  const column = displayWidth(text.slice(0, at));
  const hidden = Math.max(0, column - room + 1);
  useInsertionEffect(() => {
    onCursor(indent + prompt.length + column - hidden);
  }, [onCursor, indent, column, hidden]);
  return (
    <Box marginLeft={indent} height={1}>
      <Text bold>{prompt}</Text>
      <Box width={room} height={1} overflow="hidden">
        <Box marginLeft={-hidden} flexShrink={0} width={displayWidth(text) + 1}>
          <TextInput value={text} onChange={change} onSubmit={onSubmit} />
        </Box>
      </Box>
    </Box>
  );
}
