import { viewOf } from '../sheet/view.ts';
import { type App, canClimb, canTake } from './app-state.ts';
import { only, type Update } from './messages.ts';
import { withSheet } from './saying.ts';
import { think, waitsForHint, waitWith } from './thinking.ts';

/** Asks for a hint, or climbs its ladder by one rung. */
export function hint(app: App): Update {
  if (waitsForHint(app)) return only(waitWith(app, 'hint'));
  if (!app.hint) return think(app, { kind: 'find-hint', view: viewOf(app.sheet.state) });
  if (!canClimb(app)) return only(app);
  return only({ ...app, hint: { ...app.hint, at: app.hint.at + 1 }, page: 0 });
}

/** Takes the step that the hint has told in full. Until then nothing of it is written. */
export function take(app: App): App {
  if (waitsForHint(app)) return waitWith(app, 'take');
  const written = app.hint?.ladder.written;
  if (!canTake(app) || !written) return app;
  const { layout } = app.sheet.state;
  switch (written.kind) {
    case 'placements':
    case 'strikes':
      return withSheet(app, {
        kind: 'take',
        placements: written.kind === 'placements' ? written.candidates : [],
        strikes: written.kind === 'strikes' ? written.candidates : [],
      });
    case 'spot':
      return withSheet(app, {
        kind: 'set-spots',
        fact: written.fact,
        cells: written.places.map((candidate) => Math.floor(candidate / layout.size)),
      });
  }
}
