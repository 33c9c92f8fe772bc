/** What a technique finds, all of it, in a scene (see notation.ts); a near miss finds nothing. */
export interface Row {
  readonly technique: string;
  readonly why: string;
  readonly scene: string;
  readonly finds: readonly string[];
}

/** A row, with what is found written as in expandFinding. */
export const row = (technique: string, why: string, scene: string, ...finds: string[]): Row => ({
  technique,
  why,
  scene,
  finds,
});
