import { wing } from './wings.ts';

/** See wing: the pivot has all three digits. */
export const xyzWing = wing('xyz-wing', 'XYZ-wing', true);
