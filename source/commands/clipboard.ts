import { writeSync } from 'node:fs';

/** What a terminal takes at most in one piece, by the least generous of the common ones. */
const mostBytes = 74_000;

/**
 * Hands text to the clipboard of the terminal (OSC 52), so that it works over SSH too. The terminal does not
 * answer; one that does not know the sequence ignores it. Answers why not, in a sentence, or null.
 */
export function copyToClipboard(
  text: string,
  fd: number,
  environment: Readonly<Record<string, string | undefined>>,
): string | null {
  if (environment.TERM === 'linux') return 'The Linux console has no clipboard.';
  const encoded = Buffer.from(text).toString('base64');
  if (encoded.length > mostBytes) return 'This is too long for the clipboard of a terminal.';
  try {
    writeSync(fd, `\u001b]52;c;${encoded}\u0007`);
    return null;
  } catch {
    return 'The terminal did not take it.';
  }
}
