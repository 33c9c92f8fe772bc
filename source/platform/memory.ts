import { setFlagsFromString } from 'node:v8';

/**
 * Keeps what V8 sets aside for young objects as small as it is now, for a program that waits for keys: it would
 * let it grow to several times what they need. A little more often something is cleared away. Call it once the
 * scripts are loaded: compiled code is kept for V8 as it was set when the program started.
 */
export function keepMemoryLow(): void {
  setFlagsFromString('--semi-space-growth-factor=1');
  process.prependListener('exit', () => setFlagsFromString('--semi-space-growth-factor=2'));
}
