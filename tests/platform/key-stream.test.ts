import { describe, expect, test } from 'vitest';
import { type KeyEvent, keyChord, keySequence, type TerminalEvent } from '../../source/platform/key-event.ts';
import type { KeyParserOptions } from '../../source/platform/key-parser.ts';
import { KeyStream } from '../../source/platform/key-stream.ts';
import { FakeTimer } from './fake-timer.ts';

/** A keyboard with a clock that stands still, and what has come out of it. */
function keyboard(options: KeyParserOptions = {}) {
  const timer = new FakeTimer();
  const keys = new KeyStream({ ...options, timer });
  const events: TerminalEvent[] = [];
  keys.subscribe((event) => {
    events.push(event);
    return true;
  });
  return { timer, keys, events };
}

/** An event as one word, for tables. */
function said(event: TerminalEvent): string {
  switch (event.kind) {
    case 'key':
      return event.text === undefined ? keyChord(event) : `"${event.text}"`;
    case 'paste':
      return `paste(${event.text})${event.truncated ? ' cut' : ''}`;
    case 'mouse': {
      const modifiers = `${event.ctrl ? ' ctrl' : ''}${event.alt ? ' alt' : ''}${event.shift ? ' shift' : ''}`;
      return `${event.action} ${event.button} ${event.x},${event.y}${modifiers}`;
    }
    case 'focus':
      return event.focused ? 'focus in' : 'focus out';
    case 'reply':
      return `reply ${event.body}`;
  }
}

/** What comes out when the bytes come in these pieces, `gap` ms apart, and then nothing more. */
function read(pieces: readonly (string | Uint8Array)[], gap = 0, options: KeyParserOptions = {}): string[] {
  const { timer, keys, events } = keyboard(options);
  for (const piece of pieces) {
    keys.feed(typeof piece === 'string' ? Buffer.from(piece) : piece);
    timer.advance(gap);
  }
  timer.advance(10_000);
  return events.map(said);
}

/** Sequences and what they say. Source: Dickey, Moy et al., "XTerm Control Sequences"; rxvt's reference. */
const sequences: readonly (readonly [string, readonly string[]])[] = [
  ['a', ['"a"']],
  ['A', ['"A"']],
  ['7', ['"7"']],
  ['?', ['"?"']],
  ['§', ['"§"']],
  ['é', ['"é"']],
  ['本', ['"本"']],
  ['😀', ['"😀"']],
  [' ', ['" "']],
  ['\r', ['return']],
  ['\n', ['return']],
  ['\t', ['tab']],
  ['\x7f', ['backspace']],
  ['\b', ['backspace']],
  ['\0', ['ctrl+space']],
  ['\x03', ['ctrl+c']],
  ['\x1a', ['ctrl+z']],
  ['\x0c', ['ctrl+l']],
  ['\x1f', ['ctrl+_']],
  ['\x1b', ['escape']],
  ['\x1b\x1b', ['escape', 'escape']],
  ['\x1b[A', ['up']],
  ['\x1bOA', ['up']],
  ['\x1b[D', ['left']],
  ['\x1b[1;2A', ['shift+up']],
  ['\x1b[1;5C', ['ctrl+right']],
  ['\x1b[1;3D', ['alt+left']],
  ['\x1b[1;8B', ['ctrl+alt+shift+down']],
  ['\x1bO5A', ['ctrl+up']],
  ['\x1b[a', ['shift+up']],
  ['\x1bOa', ['ctrl+up']],
  ['\x1b[H', ['home']],
  ['\x1b[1~', ['home']],
  ['\x1b[7~', ['home']],
  ['\x1b[F', ['end']],
  ['\x1b[E', ['begin']],
  ['\x1bOE', ['begin']],
  ['\x1b[3~', ['delete']],
  ['\x1b[3;5~', ['ctrl+delete']],
  ['\x1b[5~', ['pageup']],
  ['\x1b[5$', ['shift+pageup']],
  ['\x1b[5^', ['ctrl+pageup']],
  ['\x1b[6~', ['pagedown']],
  ['\x1b[Z', ['shift+tab']],
  ['\x1bOP', ['f1']],
  ['\x1b[11~', ['f1']],
  ['\x1b[[A', ['f1']],
  ['\x1b[15~', ['f5']],
  ['\x1b[24~', ['f12']],
  ['\x1b[1;2R', ['shift+f3']],
  ['\x1bOM', ['return']],
  ['\x1bOp', ['"0"']],
  ['\x1bOq', ['"1"']],
  ['\x1bOy', ['"9"']],
  ['\x1bOk', ['"+"']],
  ['\x1bOm', ['"-"']],
  ['\x1bOn', ['"."']],
  ['\x1b[97u', ['"a"']],
  ['\x1b[97;5u', ['ctrl+a']],
  ['\x1b[27u', ['escape']],
  ['\x1b[97;1:3u', []],
  ['\x1b[27;5;9~', ['ctrl+tab']],
  ['\x1b[I', ['focus in']],
  ['\x1b[O', ['focus out']],
  ['\x1b[<0;12;5M', ['press left 11,4']],
  ['\x1b[<0;12;5m', ['release left 11,4']],
  ['\x1b[<2;1;1M', ['press right 0,0']],
  ['\x1b[<20;3;4M', ['press left 2,3 ctrl shift']],
  ['\x1b[<35;7;8M', ['move none 6,7']],
  ['\x1b[<32;7;8M', ['move left 6,7']],
  ['\x1b[<64;7;8M', ['scroll-up none 6,7']],
  ['\x1b[<65;7;8M', ['scroll-down none 6,7']],
  ['\x1b[<66;7;8M', []],
  ['\x1b[M !!', ['press left 0,0']],
  ['\x1b[32;12;5M', ['press left 11,4']],
  ['\x1b[12;40R', ['reply 12;40R']],
  ['\x1b[?62;4c', ['reply ?62;4c']],
  ['\x1b[?2026;2$y', ['reply ?2026;2$y']],
  ['\x1b]11;rgb:1e1e/1e1e/2e2e\x07', ['reply 11;rgb:1e1e/1e1e/2e2e']],
  ['\x1b]11;rgb:ffff/ffff/ffff\x1b\\', ['reply 11;rgb:ffff/ffff/ffff']],
  ['\x1b[200~81 digits\r\n12\r34\n\x1b[201~', ['paste(81 digits\n12\n34\n)']],
  ['\x1b[200~\x1b[A\x03\x1b[<0;1;1M\x1b[201~', ['paste(\x1b[A\x03\x1b[<0;1;1M)']],
  ['\x1b[201~', []],
  ['\x1b[99;99X', []],
  ['\u0085\ufffd', []],
];

describe('one event a key press', () => {
  test.each(sequences)('%j', (bytes, expected) => {
    expect(read([bytes])).toEqual(expected);
  });

  test.each(sequences)('%j cut at every byte, with up to 49 ms between', (text, expected) => {
    const bytes = Buffer.from(text);
    // Two presses of Escape are told apart by time, so a cut between them changes nothing either.
    for (let cut = 1; cut < bytes.length; cut++) {
      for (const gap of [0, 1, 40, 49]) {
        expect(read([bytes.subarray(0, cut), bytes.subarray(cut)], gap)).toEqual(expected);
      }
    }
    expect(
      read(
        Array.from(bytes, (byte) => Uint8Array.of(byte)),
        49,
      ),
    ).toEqual(expected);
  });

  test('a key with Ctrl or Alt has no text, one that types has', () => {
    const { keys, events } = keyboard();
    keys.feed('a\x01\x1b[97;3u');
    expect(events).toEqual([
      { kind: 'key', name: 'a', ctrl: false, alt: false, shift: false, text: 'a' },
      { kind: 'key', name: 'a', ctrl: true, alt: false, shift: false },
      { kind: 'key', name: 'a', ctrl: false, alt: true, shift: false },
    ]);
  });
});

describe('time', () => {
  test('Escape is known after the wait, not before', () => {
    const { timer, keys, events } = keyboard();
    keys.feed('\x1b');
    timer.advance(49);
    expect(events).toEqual([]);
    timer.advance(1);
    expect(events.map(said)).toEqual(['escape']);
    expect(timer.idle).toBe(true);
  });

  test('the wait begins anew with each byte', () => {
    expect(read(['\x1b', '[', '1', ';', '5', 'C'], 45)).toEqual(['ctrl+right']);
  });

  test.each([
    ['\x1b[1;5', []],
    ['\x1b[', ['escape', '"["']],
    ['\x1bO', ['escape', '"O"']],
    ['\x1b[<0;12', []],
    ['\x1b[M', []],
    ['\x1b]11;rgb', []],
  ])('what is left of %j after the wait is never a digit', (bytes, expected) => {
    expect(read([bytes])).toEqual(expected);
    expect(read([bytes, 'j'], 60)).toEqual([...expected, '"j"']);
  });

  test('over SSH the wait can be longer', () => {
    const timer = new FakeTimer();
    const keys = new KeyStream({ timer, escapeWaitMs: 100 });
    const events: string[] = [];
    keys.subscribe((event) => events.push(said(event)) > 0);
    keys.feed('\x1b');
    timer.advance(99);
    keys.feed('[A');
    expect(events).toEqual(['up']);
  });
});

describe('bursts', () => {
  test('12345jjjj in one write is nine keys', () => {
    expect(read(['12345jjjj'])).toEqual(Array.from('12345jjjj', (key) => `"${key}"`));
  });

  test('Escape and a key in one write are Escape and the key, unless Alt is asked for', () => {
    expect(read(['\x1bj'])).toEqual(['escape', '"j"']);
    expect(read(['\x1bj'], 0, { altPrefix: true })).toEqual(['alt+j']);
    expect(read(['\x1b\x1b[A'])).toEqual(['escape', 'up']);
    expect(read(['\x1b['], 0, { altPrefix: true })).toEqual(['alt+[']);
  });

  test('any keys in one write, or cut anywhere, are the same keys one by one', () => {
    // Escape may be followed by any key but [, O and ], which are not in the table: with those the bytes
    // themselves are ambiguous.
    const pool = sequences;
    let seed = 20240607;
    const random = (below: number) => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return Math.floor((seed / 2 ** 32) * below);
    };
    for (let round = 0; round < 300; round++) {
      const burst = Array.from({ length: 40 }, () => pool[random(pool.length)]!);
      const bytes = Buffer.from(burst.map(([sequence]) => sequence).join(''));
      const expected = burst.flatMap(([, events]) => events);
      expect(read([bytes])).toEqual(expected);
      const places = Array.from({ length: 6 }, () => 1 + random(bytes.length - 1));
      const cuts = [...new Set(places)].sort((a, b) => a - b);
      const pieces = [0, ...cuts].map((from, index) => bytes.subarray(from, [...cuts, bytes.length][index]));
      expect(read(pieces, 1 + random(40)), `round ${round} of seed 20240607`).toEqual(expected);
    }
  });
});

describe('pastes', () => {
  const digits = '53..7....'.repeat(1138).slice(0, 10_240);

  test('10 KB are one event, in one write or in many', () => {
    const bytes = `\x1b[200~${digits}\x1b[201~`;
    expect(read([bytes])).toEqual([`paste(${digits})`]);
    const pieces = Array.from({ length: Math.ceil(bytes.length / 7) }, (_, i) =>
      bytes.slice(i * 7, i * 7 + 7),
    );
    expect(read(pieces, 3)).toEqual([`paste(${digits})`]);
  });

  test('what is over the limit is dropped and said', () => {
    expect(read([`\x1b[200~${digits}\x1b[201~j`], 0, { pasteLimit: 5 })).toEqual(['paste(53..7) cut', '"j"']);
    expect(read(['\x1b[200~12345\x1b[201~'], 0, { pasteLimit: 5 })).toEqual(['paste(12345)']);
  });

  test('a pause within a paste changes nothing', () => {
    expect(read(['\x1b[200~12', '34', '\x1b[201~'], 5000)).toEqual(['paste(1234)']);
    expect(read(['\x1b[200~12', '\x1b[20', '1~'], 5000)).toEqual(['paste(12)']);
  });

  test('Ctrl-C ends a paste whose end has been lost', () => {
    expect(read(['\x1b[200~12', '\x03'], 500)).toEqual([]);
    expect(read(['\x1b[200~12', '\x03'], 1500)).toEqual(['paste(12) cut', 'ctrl+c']);
  });
});

describe('handlers and Ink', () => {
  /** A stand-in for Ink's loop: reads until null on each `readable`. */
  function inkReader(keys: KeyStream) {
    const turns: string[][] = [];
    const listener = () => {
      const turn: string[] = [];
      for (let key = keys.ink.read(); key !== null; key = keys.ink.read()) turn.push(key);
      turns.push(turn);
    };
    keys.ink.on('readable', listener);
    return { turns, stop: () => keys.ink.removeListener('readable', listener) };
  }

  test('the newest handler is asked first; false passes an event on', () => {
    const { keys, events, timer } = keyboard();
    const newest: string[] = [];
    const remove = keys.subscribe((event) => {
      newest.push(said(event));
      return event.kind === 'key' && event.name === 'a';
    });
    keys.feed('ab');
    remove();
    keys.feed('a');
    timer.advance(0);
    expect(newest).toEqual(['"a"', '"b"']);
    expect(events.map(said)).toEqual(['"b"', '"a"']);
  });

  test('what comes before anybody listens is kept', () => {
    const timer = new FakeTimer();
    const keys = new KeyStream({ timer });
    keys.feed('ab');
    const events: string[] = [];
    keys.subscribe((event) => events.push(said(event)) > 0);
    timer.advance(0);
    expect(events).toEqual(['"a"', '"b"']);
  });

  test('Ink gets one key a read, each in a turn of its own, and only keys', () => {
    const timer = new FakeTimer();
    const keys = new KeyStream({ timer });
    const { turns } = inkReader(keys);
    keys.feed('ab\x1bOq\x1b[1;5C\x1b[<0;1;1M\x1b[200~12\x1b[201~\x1b[I\r');
    timer.advance(0);
    expect(turns).toEqual([['a'], ['b'], ['1'], ['\x1b[1;5C'], ['\r']]);
  });

  test('nothing follows a key for Ink before Ink is ready, and the line may be mounted late', () => {
    const timer = new FakeTimer();
    const keys = new KeyStream({ timer });
    let typing = false;
    const taken: string[] = [];
    keys.subscribe((event) => {
      if (typing) return 'ink';
      taken.push(said(event));
      if (event.kind === 'key' && event.name === ':') typing = true;
      return true;
    });
    keys.feed('h:r4\rj');
    expect(taken).toEqual(['"h"', '":"']);
    timer.advance(20);
    const { turns, stop } = inkReader(keys);
    keys.ink.on('readable', () => {
      if (turns.at(-1)?.[0] !== '\r') return;
      typing = false;
      stop();
    });
    timer.advance(0);
    expect(turns.flat()).toEqual(['r', '4', '\r']);
    expect(taken).toEqual(['"h"', '":"', '"j"']);
  });

  test('text typed ahead goes to the line in one piece, up to the next key that types none', () => {
    const timer = new FakeTimer();
    const keys = new KeyStream({ timer });
    keys.subscribe((event) => (event.kind === 'key' && event.text !== undefined ? 'ink-text' : 'ink'));
    const { turns } = inkReader(keys);
    keys.feed('r4c7=3 é\x1b[Dx\x7f\r');
    timer.advance(0);
    expect(turns.flat()).toEqual(['r4c7=3 é', '\x1b[D', 'x', '\x7f', '\r']);
  });

  test('after what must be on the screen first, the next key waits a turn', () => {
    const timer = new FakeTimer();
    const keys = new KeyStream({ timer });
    const taken: string[] = [];
    keys.subscribe((event) => {
      taken.push(said(event));
      return taken.length === 1 ? 'shown' : true;
    });
    keys.feed('ab');
    expect(taken).toEqual(['"a"']);
    timer.advance(0);
    expect(taken).toEqual(['"a"', '"b"']);
  });

  test('a key for a line that never comes is dropped, and life goes on', () => {
    const timer = new FakeTimer();
    const keys = new KeyStream({ timer });
    const taken: string[] = [];
    keys.subscribe((event) => {
      if (event.kind === 'key' && event.name === 'x') return 'ink';
      return taken.push(said(event)) > 0;
    });
    keys.feed('xj');
    timer.advance(9_999);
    expect(taken).toEqual([]);
    timer.advance(1);
    expect(taken).toEqual(['"j"']);
  });

  test('after the end nothing comes and no timer runs', () => {
    const { keys, events, timer } = keyboard();
    keys.feed('\x1b');
    keys.end();
    keys.feed('a');
    timer.advance(1000);
    expect(events).toEqual([]);
    expect(timer.idle).toBe(true);
  });
});

test('a key written for Ink reads back as the same key', () => {
  for (const [bytes] of sequences) {
    const { timer, keys, events } = keyboard();
    keys.feed(bytes);
    timer.advance(100);
    for (const key of events.filter((event): event is KeyEvent => event.kind === 'key')) {
      const sequence = keySequence(key);
      if (sequence === undefined) continue;
      const [again] = read([sequence], 100);
      expect(again, JSON.stringify(sequence)).toBe(said(key));
    }
  }
});
