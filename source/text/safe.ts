/** How text from outside is made safe. */
export interface SafeOptions {
  /** Keeps newlines as they are; otherwise they are escaped like every other control. */
  readonly keepNewlines?: boolean;
  /** The most code points that a line may have before it is shortened. Default 2,000. */
  readonly lineLimit?: number;
  /** Ends a line that was shortened. Default `…`. */
  readonly ellipsis?: string;
}

/**
 * Everything that must not reach a terminal or an export as it stands: C0, DEL and C1 controls (ESC among
 * them), marks and overrides of writing direction, line and paragraph separators, invisible formats and
 * tags, lone surrogates. The joiners U+200C and U+200D stay: words and emoji need them, and they do nothing.
 */
const unsafe =
  /[\u0000-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}\ud800-\udfff]/gu;

function escapeOne(sign: string): string {
  const code = sign.codePointAt(0)!;
  if (code <= 0xff) return `\\x${code.toString(16).padStart(2, '0')}`;
  return code <= 0xffff ? `\\u${code.toString(16).padStart(4, '0')}` : `\\u{${code.toString(16)}}`;
}

function shorten(line: string, limit: number, ellipsis: string): string {
  if (line.length <= limit) return line;
  const kept: string[] = [];
  for (const sign of line) {
    if (kept.length === limit) return kept.slice(0, Math.max(0, limit - 1)).join('') + ellipsis;
    kept.push(sign);
  }
  return line;
}

/**
 * The one boundary that makes text from outside (files, pastes, names, arguments, errors, environment) safe
 * to show. Controls and the like become visible escapes such as `\x1b` and `\u202e`; lines over the limit
 * are cut and end in an ellipsis. Safe text comes back as it is, so doing it twice changes nothing.
 */
export function safeText(text: string, options: SafeOptions = {}): string {
  const { keepNewlines = false, lineLimit = 2000, ellipsis = '…' } = options;
  const lines = keepNewlines ? text.split('\n') : [text];
  const safe = lines.map((line) => {
    // Cut first, so that a line of a gigabyte is not escaped as a whole, and again for what escapes added.
    const short = shorten(line, lineLimit, ellipsis);
    const escaped = short.replace(unsafe, escapeOne);
    return escaped === short ? short : shorten(escaped, lineLimit, ellipsis);
  });
  return safe.join('\n');
}

/** A piece of outside text inside a sentence of ours: one line, in double quotes, at most 40 code points. */
export const quoteSafe = (text: string, limit = 40): string => `"${safeText(text, { lineLimit: limit })}"`;
