const heldLimit = 65_536;

/**
 * Holds back what is written to `process.stdout` and `process.stderr` through their streams, so that a stray
 * line can't disturb the screen. The answer lets go and gives the text, at most 64 KiB of it, as it came.
 */
export function holdOutput(): () => string {
  let held = '';
  const releases = [process.stdout, process.stderr].map((stream) => {
    const hold = (chunk: string | Uint8Array, encoding?: unknown, done?: unknown): boolean => {
      if (held.length < heldLimit) held += typeof chunk === 'string' ? chunk : Buffer.from(chunk).toString();
      const callback = typeof encoding === 'function' ? encoding : done;
      if (typeof callback === 'function') process.nextTick(callback as () => void);
      return true;
    };
    const own = Object.getOwnPropertyDescriptor(stream, 'write');
    Object.defineProperty(stream, 'write', { value: hold, configurable: true, writable: true });
    return () => {
      if (own) Object.defineProperty(stream, 'write', own);
      else Reflect.deleteProperty(stream, 'write');
    };
  });
  return () => {
    for (const release of releases) release();
    return held.slice(0, heldLimit);
  };
}
