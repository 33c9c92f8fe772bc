// Adds up what the test runs report: node count.mjs FOLDER STEP...
// A step has FOLDER/STEP.code (its exit code) and, if it runs tests, FOLDER/STEP.json (vitest's JSON report).
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const [folder, ...steps] = process.argv.slice(2);
let passed = 0;
let failed = 0;
let skipped = 0;
for (const step of steps) {
  const code = Number(readFileSync(join(folder, `${step}.code`), 'utf8'));
  const path = join(folder, `${step}.json`);
  let counted = 0;
  if (existsSync(path)) {
    const report = JSON.parse(readFileSync(path, 'utf8'));
    passed += report.numPassedTests;
    skipped += report.numPendingTests + report.numTodoTests;
    // A file that could not even be loaded has failed, though none of its tests was counted.
    const unloaded = report.testResults.filter(
      (file) => file.status === 'failed' && file.assertionResults.every((each) => each.status !== 'failed'),
    );
    counted = report.numFailedTests + unloaded.length;
  }
  failed += counted;
  // Types, lint, the build, an install or a time limit: no test tells of them, so they are counted here.
  if (code !== 0 && counted === 0) {
    failed += 1;
    console.log(`${step} failed outside its tests (exit code ${code})`);
  }
}
if (skipped > 0) console.log(`${skipped} skipped`);
if (passed === 0) console.log('no test passed');
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
