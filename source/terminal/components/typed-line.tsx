import { Box, type Key, Text, useInput } from 'ink';
import { type ReactNode, useInsertionEffect, useReducer, useRef } from 'react';
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

/** A line being typed, sign by sign, and before which of them the cursor stands. */
interface Line {
  readonly signs: readonly string[];
  readonly at: number;
}

const prompt = ': ';

/** The line after a key that is not Enter. What types no sign and moves nothing changes nothing. */
function edit({ signs, at }: Line, input: string, key: Key): Line {
  if (key.leftArrow) return { signs, at: Math.max(0, at - 1) };
  if (key.rightArrow) return { signs, at: Math.min(signs.length, at + 1) };
  if (key.backspace || key.delete) {
    const before = Math.max(0, at - 1);
    return { signs: signs.toSpliced(before, at - before), at: before };
  }
  if (key.ctrl || key.meta || key.escape || key.tab || key.upArrow || key.downArrow) return { signs, at };
  const typed = [...input];
  return { signs: signs.toSpliced(at, 0, ...typed), at: at + typed.length };
}

/** The line in which moves and commands are typed, behind its prompt, with its cursor drawn. */
export function TypedLine({ text, indent, room, onChange, onSubmit, onCursor }: TypedLineProps): ReactNode {
  // Kept apart from what is rendered: the next key may come before that.
  const line = useRef<Line>({ signs: [...text], at: [...text].length });
  const [, redraw] = useReducer((count: number) => count + 1, 0);
  if (line.current.signs.join('') !== text) line.current = { signs: [...text], at: [...text].length };
  useInput((input, key) => {
    const before = line.current.signs.join('');
    if (key.return) return onSubmit(before);
    line.current = edit(line.current, input, key);
    redraw();
    const after = line.current.signs.join('');
    if (after !== before) onChange(after);
  });
  const { signs, at } = line.current;
  const column = displayWidth(signs.slice(0, at).join(''));
  const hidden = Math.max(0, column - room + 1);
  useInsertionEffect(() => {
    onCursor(indent + prompt.length + column - hidden);
  }, [onCursor, indent, column, hidden]);
  return (
    <Box marginLeft={indent} height={1}>
      <Text bold>{prompt}</Text>
      <Box width={room} height={1} overflow="hidden">
        <Box marginLeft={-hidden} flexShrink={0} width={displayWidth(text) + 1}>
          <Text>
            {signs.slice(0, at).join('')}
            <Text inverse>{signs[at] ?? ' '}</Text>
            {signs.slice(at + 1).join('')}
          </Text>
        </Box>
      </Box>
    </Box>
  );
}
