// Compares what the terminal program answered with what is expected: every field that the expected file names.
// usage: node compare.mjs answer|audit EXPECTED ACTUAL
import { readFileSync } from 'node:fs';

const [kind, expectedPath, actualPath] = process.argv.slice(2);
const expected = JSON.parse(readFileSync(expectedPath, 'utf8'));
const actual = JSON.parse(readFileSync(actualPath, 'utf8'));
const differences = [];

function compare(path, want, have) {
  if (Array.isArray(want)) {
    if (!Array.isArray(have) || have.length !== want.length) differences.push(`${path}: ${want.length} expected, got ${have?.length}`);
    else want.forEach((one, i) => compare(`${path}[${i}]`, one, have[i]));
  } else if (want !== null && typeof want === 'object') {
    for (const name of Object.keys(want)) compare(`${path}.${name}`, want[name], have?.[name]);
  } else if (typeof want === 'number' && typeof have === 'number') {
    if (Math.abs(want - have) > 1e-9) differences.push(`${path}: ${want} expected, got ${have}`);
  } else if (want !== have) {
    differences.push(`${path}: ${want} expected, got ${have}`);
  }
}

if (kind === 'answer') {
  compare('answer', expected.expected, actual);
} else {
  const key = entry => [entry.learner, entry.service, entry.goal, entry.provider].join(' ');
  const sorted = entries => [...entries].sort((a, b) => (key(a) < key(b) ? -1 : 1));
  compare('entries', sorted(expected.entries), sorted(Array.isArray(actual) ? actual : actual.entries));
}

if (differences.length > 0) {
  console.error(`${expectedPath}\n  ${differences.slice(0, 40).join('\n  ')}`);
  process.exit(1);
}
