const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit += 1) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

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
