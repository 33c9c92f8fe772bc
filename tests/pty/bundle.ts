import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';

/** Bundles a fixture into a file that Node can run; `remove` takes it away again. */
export function bundleFixture(name: string): { readonly path: string; readonly remove: () => void } {
  const directory = mkdtempSync(join(tmpdir(), 'inkling-fixture-'));
  const path = join(directory, 'fixture.mjs');
  buildSync({
    entryPoints: [fileURLToPath(new URL(`./fixtures/${name}`, import.meta.url))],
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    outfile: path,
    logLevel: 'error',
  });
  return { path, remove: () => rmSync(directory, { recursive: true, force: true }) };
}
