import type { Role } from './screen.ts';

/**
 * The free tags, as the sheet keeps them and as they are shown. The letters shown are neither those of facts
 * (`A`, `B`, ..) nor like a digit, and come in two pairs: two colours for one colouring, two for another.
 */
export const tags = [
  { tag: 'a', letter: 'm', role: 'tagFirst' },
  { tag: 'b', letter: 't', role: 'tagSecond' },
  { tag: 'c', letter: 'v', role: 'tagFirst' },
  { tag: 'd', letter: 'y', role: 'tagSecond' },
] as const satisfies readonly { tag: string; letter: string; role: Role }[];

export type Tag = (typeof tags)[number]['tag'];

/** How a tag of the sheet is shown. */
export const tagLook = (tag: string): { readonly letter: string; readonly role: Role } =>
  tags.find((each) => each.tag === tag) ?? tags[0];
