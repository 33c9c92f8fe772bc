import type { Fact } from '../argument/kernel.ts';

/** Up to so many stated facts the smallest set that suffices is found by trying all. */
export const exhaustiveFacts = 12;

/**
 * The smallest part of the facts that is accepted, earliest-written on ties; of more than 12 facts a part of
 * which none can be left out. `accepts` must accept all of them, and whatever contains what it accepts.
 */
export function fewestFacts(facts: readonly Fact[], accepts: (some: readonly Fact[]) => boolean): Fact[] {
  if (facts.length > exhaustiveFacts) {
    return [...facts].reverse().reduce<Fact[]>(
      (kept, fact) => {
        const fewer = kept.filter((other) => other !== fact);
        return accepts(fewer) ? fewer : kept;
      },
      [...facts],
    );
  }
  const needed = new Set(facts.filter((fact) => !accepts(facts.filter((other) => other !== fact))));
  const others = facts.filter((fact) => !needed.has(fact));
  const choose = (count: number, from: number, chosen: ReadonlySet<Fact>): Fact[] | null => {
    if (count === 0) {
      const some = facts.filter((fact) => chosen.has(fact));
      return accepts(some) ? some : null;
    }
    for (let i = from; i <= others.length - count; i += 1) {
      const found = choose(count - 1, i + 1, new Set([...chosen, others[i]]));
      if (found) return found;
    }
    return null;
  };
  for (let count = 0; count < others.length; count += 1) {
    const found = choose(count, 0, needed);
    if (found) return found;
  }
  return [...facts];
}
