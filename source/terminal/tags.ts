import { type TagLetter, tagLetters } from '../sheet/state.ts';
import type { Role } from './screen.ts';

const roles: Readonly<Record<TagLetter, Role>> = {
  m: 'tagFirst',
  t: 'tagSecond',
  v: 'tagFirst',
  y: 'tagSecond',
};

/** How a tag is shown: the first and the second of a pair in two colours. */
export const tagRole = (letter: TagLetter): Role => roles[letter];

/** The letter that comes after this one, round again. */
export const tagAfter = (letter: TagLetter): TagLetter =>
  tagLetters[(tagLetters.indexOf(letter) + 1) % tagLetters.length];
