/** What a byte does to the sum. Entry 2^k and those below make those above: a shift for each entry, not eight. */
const table = new Uint32Array(256);
for (let step = 128, rest = 1; step > 0; step >>= 1) {
  rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  for (let byte = 0; byte < 256; byte += 2 * step) table[byte + step] = rest ^ table[byte];
}

/**
 * The CRC-32 of a text of bytes (one character a byte, each below 256), as eight hexadecimal digits. The
 * polynomial is the one of Ethernet, gzip and PNG (ISO 3309). It tells every text from one with a single
 * changed bit, or with all changes within 32 neighbouring bits.
 */
export function checksum(bytes: string): string {
  let sum = 0xffffffff;
  for (let at = 0; at < bytes.length; at += 1) {
    sum = (sum >>> 8) ^ table[(sum ^ bytes.charCodeAt(at)) & 0xff];
  }
  return ((sum ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
}

/**
 * A number of 48 bits that a text has of its own, as twelve hexadecimal digits: for names, not against anybody
 * who means harm. Two runs of FNV-1a with 32 bits (Fowler, Noll and Vo; public domain), each mixed at its end.
 */
export function fingerprint(text: string): string {
  const run = (start: number): number => {
    let hash = start;
    for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
    hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
    hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
    return (hash ^ (hash >>> 16)) >>> 0;
  };
  const digits = (hash: number, count: number) => hash.toString(16).padStart(8, '0').slice(0, count);
  return digits(run(0x811c9dc5), 8) + digits(run(0x9e3779b9), 4);
}
