import { wing } from './wings.ts';

/** See wing: the pivot has the two digits that the wings do not share. */
export const xyWing = wing('xy-wing', 'XY-wing', false);
