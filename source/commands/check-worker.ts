import { parentPort, workerData } from 'node:worker_threads';
import { readWritten } from '../grid/layout-text.ts';
import { answerInputs } from './answer-inputs.ts';
import { type CheckTask, checkGrid } from './check.ts';
import type { BlockReply, BlockRequest, WrittenPart } from './crew.ts';
import { readBlock } from './input.ts';

/** The entry of a worker thread: answers each BlockRequest with a BlockReply. */
const { name, layout: written, asked, seconds } = workerData as CheckTask;
// Read, not sent as it is: then the plain layout is the plain one here too.
const layout = readWritten(written);
if (layout === null) throw new Error('a thread was sent a layout that cannot be read');
const encoder = new TextEncoder();

parentPort?.on('message', ({ block, room }: BlockRequest) => {
  const bytes = new Uint8Array(room);
  const parts: WrittenPart[] = [];
  let from = 0;
  const inputs = readBlock(name, block, layout);
  const answers = answerInputs(
    inputs,
    (named) => checkGrid(named, asked, seconds),
    () => performance.now(),
  );
  let next = answers.next();
  for (; !next.done; next = answers.next()) {
    const part = next.value;
    const text = 'text' in part ? `${part.text}\n` : '';
    const { read, written } = encoder.encodeInto(text, bytes.subarray(from));
    if (text === '' || read < text.length) parts.push(part);
    else {
      const before = parts.at(-1);
      if (before && 'to' in before) parts[parts.length - 1] = { from: before.from, to: from + written };
      else parts.push({ from, to: from + written });
      from += written;
    }
  }
  const reply: BlockReply = { parts, tally: next.value };
  parentPort?.postMessage(reply);
});
