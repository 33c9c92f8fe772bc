import { withClaims } from '../argument/claim.ts';
import type { View } from '../path/step.ts';
import type { Asking, Heard } from '../terminal/engine.ts';
import type { Question } from '../terminal/series.ts';
import type { News } from '../terminal/services.ts';
import { factsTried, sayTried } from './facts-tried.ts';
import { lastLook, sayWithin, withinSeconds } from './in-time.ts';
import { type SoFar, sayArguedSoFar, sayFoundSoFar, sayStepsSoFar } from './so-far.ts';

/** What a question is about, as far as it matters where there is no answer. */
interface About {
  readonly kind: Asking['kind'];
  readonly about?: Question;
  readonly view: View;
}

/** What is known of a question when the time for it has run out. */
function sayUnanswered({ kind, about, view }: About, soFar: SoFar, seconds: number): string {
  const within = sayWithin(seconds);
  switch (kind) {
    case 'find-hint': {
      const tried = factsTried(withClaims(view.position, view.claims), seconds);
      return [`No step found ${within}.`, ...sayTried(tried)].join(' ');
    }
    case 'argue':
      return sayArguedSoFar(soFar.argued, seconds);
    case 'ask': {
      if (about === 'trace') {
        return `No chain of arguments was found ${within}.${sayStepsSoFar(soFar.steps)}`;
      }
      const position = withClaims(view.position, view.claims);
      const found = withinSeconds(lastLook(seconds), () => sayFoundSoFar(position, soFar.found?.() ?? []));
      return [`Not all of the sheet was looked at ${within}.`, ...(found?.value ?? [])].join(' ');
    }
    case 'is-right':
    case 'how-many-solutions':
      return `Not decided ${within}.`;
    case 'why-no-hint':
      return `No step found; whether the sheet can be right was not decided ${within}.`;
  }
}

/** How a question gets more time, in a sentence. */
export const sayMoreTime = 'The setting seconds, or --seconds N, allows for more.';

/** Answers a question in this thread, within so many seconds; else says what is known by then, as `soFar` has it. */
export function thinkHere(about: About, soFar: SoFar, seconds: number, answer: () => Heard): News {
  const answered = withinSeconds(seconds, answer);
  if (answered) return answered.value;
  return { kind: 'unanswered', why: `${sayUnanswered(about, soFar, seconds)} ${sayMoreTime}` };
}
