import { describe, expect, test } from 'vitest';
import {
  type ColourDepth,
  type ColourFlag,
  colourDepth,
  decideCapabilities,
  type Environment,
  type Obstacle,
  sayObstacle,
} from '../../source/platform/capabilities.ts';

const xterm256 = { TERM: 'xterm-256color' };

describe('colours of a stream', () => {
  const table: readonly (readonly [string, Environment, ColourFlag | undefined, boolean, ColourDepth])[] = [
    // What the terminal is.
    ['plain xterm', { TERM: 'xterm' }, undefined, true, '16'],
    ['256', xterm256, undefined, true, '256'],
    ['256, older name', { TERM: 'rxvt-unicode-256color' }, undefined, true, '256'],
    ['direct colours said', { ...xterm256, COLORTERM: 'truecolor' }, undefined, true, 'true'],
    ['direct colours said otherwise', { TERM: 'xterm', COLORTERM: '24bit' }, undefined, true, 'true'],
    ['direct colours by name', { TERM: 'xterm-direct' }, undefined, true, 'true'],
    ['kitty', { TERM: 'xterm-kitty' }, undefined, true, 'true'],
    ['alacritty', { TERM: 'alacritty' }, undefined, true, 'true'],
    ['another COLORTERM', { TERM: 'xterm', COLORTERM: 'yes' }, undefined, true, '16'],
    ['linux console', { TERM: 'linux' }, undefined, true, '16'],
    [
      'linux console with a leaked COLORTERM',
      { TERM: 'linux', COLORTERM: 'truecolor' },
      undefined,
      true,
      '16',
    ],
    ['tmux', { TERM: 'tmux-256color', COLORTERM: 'truecolor', TMUX: '/t' }, undefined, true, 'true'],
    ['screen', { TERM: 'screen.xterm-256color', COLORTERM: 'truecolor', STY: '1' }, undefined, true, '256'],
    ['vt100', { TERM: 'vt100' }, undefined, true, 'mono'],
    ['vt220', { TERM: 'vt220' }, undefined, true, 'mono'],
    ['xterm in monochrome', { TERM: 'xterm-mono' }, undefined, true, 'mono'],
    ['dumb', { TERM: 'dumb', COLORTERM: 'truecolor' }, undefined, true, 'mono'],
    ['no TERM', {}, undefined, true, 'mono'],
    ['an unknown name', { TERM: 'st' }, undefined, true, '16'],
    ['no terminal', { ...xterm256, COLORTERM: 'truecolor' }, undefined, false, 'mono'],
    // CLICOLOR.
    ['CLICOLOR=0', { ...xterm256, CLICOLOR: '0' }, undefined, true, 'mono'],
    ['CLICOLOR=1 is no force', { ...xterm256, CLICOLOR: '1' }, undefined, false, 'mono'],
    ['CLICOLOR_FORCE', { ...xterm256, CLICOLOR_FORCE: '1' }, undefined, false, '256'],
    ['CLICOLOR_FORCE without a TERM', { CLICOLOR_FORCE: '1' }, undefined, false, '16'],
    ['CLICOLOR_FORCE=0', { ...xterm256, CLICOLOR_FORCE: '0' }, undefined, false, 'mono'],
    [
      'CLICOLOR_FORCE over CLICOLOR',
      { ...xterm256, CLICOLOR: '0', CLICOLOR_FORCE: '1' },
      undefined,
      true,
      '256',
    ],
    // FORCE_COLOR.
    ['FORCE_COLOR=1', { ...xterm256, FORCE_COLOR: '1' }, undefined, false, '16'],
    ['FORCE_COLOR=2', { TERM: 'xterm', FORCE_COLOR: '2' }, undefined, true, '256'],
    ['FORCE_COLOR=3', { FORCE_COLOR: '3' }, undefined, false, 'true'],
    ['FORCE_COLOR=true', { ...xterm256, FORCE_COLOR: 'true' }, undefined, false, '256'],
    ['FORCE_COLOR=0', { ...xterm256, FORCE_COLOR: '0' }, undefined, true, 'mono'],
    [
      'FORCE_COLOR=false',
      { ...xterm256, FORCE_COLOR: 'false', CLICOLOR_FORCE: '1' },
      undefined,
      true,
      'mono',
    ],
    ['FORCE_COLOR empty is not set', { ...xterm256, FORCE_COLOR: '' }, undefined, false, 'mono'],
    // NO_COLOR.
    ['NO_COLOR', { ...xterm256, NO_COLOR: '1' }, undefined, true, 'mono'],
    ['NO_COLOR=0 is set too', { ...xterm256, NO_COLOR: '0' }, undefined, true, 'mono'],
    ['NO_COLOR empty is not set', { ...xterm256, NO_COLOR: '' }, undefined, true, '256'],
    ['NO_COLOR over FORCE_COLOR', { ...xterm256, NO_COLOR: '1', FORCE_COLOR: '3' }, undefined, true, 'mono'],
    ['NO_COLOR over CLICOLOR_FORCE', { NO_COLOR: '1', CLICOLOR_FORCE: '1' }, undefined, false, 'mono'],
    // --color over all of them.
    ['--color=never', { ...xterm256, FORCE_COLOR: '3' }, 'never', true, 'mono'],
    ['--color=always over NO_COLOR', { ...xterm256, NO_COLOR: '1' }, 'always', false, '256'],
    ['--color=always on a dumb terminal', { TERM: 'dumb' }, 'always', true, '16'],
    ['--color=16', { ...xterm256, COLORTERM: 'truecolor' }, '16', true, '16'],
    ['--color=256', { TERM: 'xterm', NO_COLOR: '1' }, '256', false, '256'],
    ['--color=true', { TERM: 'xterm' }, 'true', true, 'true'],
    ['--color=auto', { ...xterm256, NO_COLOR: '1' }, 'auto', true, 'mono'],
  ];
  test.each(table)('%s', (_, env, flag, isTTY, expected) => {
    expect(colourDepth(env, flag, isTTY)).toBe(expected);
  });

  test('stdout and stderr are judged apart', () => {
    const both = (stdout: boolean, stderr: boolean) => {
      const { stdoutColour, stderrColour } = decideCapabilities({
        env: xterm256,
        flags: {},
        isTTY: { keys: true, stdout, stderr },
      });
      return [stdoutColour, stderrColour];
    };
    expect(both(true, false)).toEqual(['256', 'mono']);
    expect(both(false, true)).toEqual(['mono', '256']);
  });
});

function decide(env: Environment, options: { keys?: boolean; stdout?: boolean; ascii?: boolean } = {}) {
  const { keys = true, stdout = true, ascii = false } = options;
  return decideCapabilities({ env, flags: { ascii }, isTTY: { keys, stdout, stderr: true } });
}

describe('what is in the way', () => {
  test.each<readonly [string, Environment, { keys?: boolean; stdout?: boolean }, Obstacle | undefined]>([
    ['nothing', xterm256, {}, undefined],
    ['stdout is a pipe', xterm256, { stdout: false }, 'stdout'],
    ['no keyboard', xterm256, { keys: false }, 'stdin'],
    ['dumb', { TERM: 'dumb' }, {}, 'dumb'],
    ['no TERM', {}, {}, 'dumb'],
    ['an empty TERM', { TERM: '' }, {}, 'dumb'],
    ['CI=1', { ...xterm256, CI: '1' }, {}, 'ci'],
    ['CI=true', { ...xterm256, CI: 'true' }, {}, 'ci'],
    ['an empty CI', { ...xterm256, CI: '' }, {}, undefined],
    ['CI=false', { ...xterm256, CI: 'false' }, {}, undefined],
  ])('%s', (_, env, streams, expected) => {
    expect(decide(env, streams).obstacle).toBe(expected);
  });

  test.each<Obstacle>(['stdin', 'stdout', 'dumb', 'ci'])(
    '%s is said in one line that names a way out',
    (obstacle) => {
      expect(sayObstacle(obstacle)).toMatch(/^inkling: [^\n]* inkling hint GRID$/);
    },
  );
});

describe('signs beyond ASCII', () => {
  test.each<readonly [string, Environment, boolean]>([
    ['UTF-8 by LANG', { LANG: 'en_GB.UTF-8' }, true],
    ['utf8 by LC_CTYPE', { LANG: 'C', LC_CTYPE: 'de_DE.utf8' }, true],
    ['LC_ALL=C over LANG', { LC_ALL: 'C', LANG: 'en_GB.UTF-8' }, false],
    ['an empty LC_ALL counts as not set', { LC_ALL: '', LANG: 'C.UTF-8' }, true],
    ['Latin 1', { LANG: 'de_DE.ISO-8859-1' }, false],
    ['no locale', {}, false],
  ])('%s', (_, env, expected) => {
    expect(decide({ ...xterm256, ...env }).unicode).toBe(expected);
  });

  test('none on the linux console, none with --ascii', () => {
    expect(decide({ TERM: 'linux', LANG: 'C.UTF-8' }).unicode).toBe(false);
    expect(decide({ ...xterm256, LANG: 'C.UTF-8' }, { ascii: true }).unicode).toBe(false);
  });
});

test('the background is told by COLORFGBG or not at all', () => {
  const told = (COLORFGBG?: string) => decide({ ...xterm256, COLORFGBG }).background;
  expect([told(), told('15;0'), told('0;15'), told('0;default;7'), told('15;default')]).toEqual([
    'unknown',
    'dark',
    'light',
    'light',
    'unknown',
  ]);
});

test('a sequence is waited for twice as long over SSH', () => {
  expect(decide(xterm256).escapeWaitMs).toBe(50);
  expect(decide({ ...xterm256, SSH_CONNECTION: '10.0.0.1 1 10.0.0.2 22' }).escapeWaitMs).toBe(100);
});
