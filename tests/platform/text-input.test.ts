import { PassThrough } from 'node:stream';
import { render, Text } from 'ink';
import TextInput from 'ink-text-input';
import { createElement, useEffect, useRef, useState } from 'react';
import { expect, test } from 'vitest';
import { keyChord } from '../../source/platform/key-event.ts';
import { KeyStream } from '../../source/platform/key-stream.ts';

interface BenchProps {
  readonly keys: KeyStream;
  readonly note: (said: string) => void;
}

/** A workbench in miniature: `:` opens a typed line, Return closes it, other keys are noted. */
function Bench({ keys, note }: BenchProps) {
  const typing = useRef(false);
  const [line, setLine] = useState<string | undefined>(undefined);
  useEffect(
    () =>
      keys.subscribe((event) => {
        if (event.kind !== 'key') return false;
        if (typing.current) return 'ink';
        note(keyChord(event));
        if (event.name !== ':') return true;
        typing.current = true;
        setLine('');
        return true;
      }),
    [keys, note],
  );
  if (line === undefined) return createElement(Text, null, 'no line');
  const onSubmit = (text: string) => {
    typing.current = false;
    note(`line ${text}`);
    setLine(undefined);
  };
  return createElement(TextInput, { value: line, onChange: setLine, onSubmit });
}

function mount(keys: KeyStream, note: (said: string) => void) {
  const stdout = Object.assign(new PassThrough(), { columns: 80, rows: 24 });
  stdout.resume();
  return render(createElement(Bench, { keys, note }), {
    stdin: keys.ink as unknown as NodeJS.ReadStream,
    stdout: stdout as unknown as NodeJS.WriteStream,
    patchConsole: false,
    exitOnCtrlC: false,
  });
}

/** What was noted by the time that the last key, `q`, has come through. */
async function play(feed: (keys: KeyStream) => void): Promise<string[]> {
  const keys = new KeyStream();
  const noted: string[] = [];
  const done = new Promise<void>((resolve) => {
    const app = mount(keys, (said) => {
      noted.push(said);
      if (said !== 'q') return;
      app.unmount();
      resolve();
    });
  });
  feed(keys);
  await done;
  keys.end();
  return noted;
}

const bytes = 'h:r4c7<>3\x7f\x1b[D\x1b[D=5\x1b[C\r\x1bOq:5@b2:r1c4,r2c4\r\x1b[1;5Aq';
const expected = ['h', ':', 'line r4c7=5<>', '1', ':', 'line 5@b2:r1c4,r2c4', 'ctrl+up', 'q'];

test('a burst that opens, fills and closes a typed line twice does what single keys do', async () => {
  expect(await play((keys) => keys.feed(bytes))).toEqual(expected);
});

test('the same keys, byte by byte', async () => {
  expect(await play((keys) => Array.from(bytes, (byte) => keys.feed(byte)))).toEqual(expected);
});

test('a long line typed in one burst keeps every character', async () => {
  const long = 'r1c1=1 '.repeat(60);
  expect(await play((keys) => keys.feed(`:${long}\rq`))).toEqual([':', `line ${long}`, 'q']);
});
