const blocks = '▁▂▃▄▅▆▇█';

/**
 * The weights of a path's steps as a line, one sign a step: blocks of a height, the highest for eight facts
 * or more; in ASCII the number of facts, `+` for ten or more.
 */
export function drawContour(weights: readonly number[], unicode: boolean): string {
  const sign = (weight: number): string => {
    if (unicode) return blocks[Math.min(Math.max(weight, 1), blocks.length) - 1];
    return weight > 9 ? '+' : String(weight);
  };
  return weights.map(sign).join('');
}
