// What a person waits for: each page in Chromium with a processor four times slower and a slow mobile network (1.6 Mbit/s down, 0.75 Mbit/s up, 150 ms
// there and back: common practice for "slow 4G"), first with nothing stored, then again. Prints one Markdown table.
//
//   node tests/drills/browser-speed.mjs http://localhost:5000 E-MAIL PASSPHRASE [ROUNDS] PATH...
//
// Needs the browser tests to be built (their driver is used) and a portal whose account signs in by password alone, such as the demonstration's.
// LCP, CLS and INP as the browser's own performance entries give them (W3C Largest Contentful Paint, Layout Instability, Event Timing); the median of the rounds, in
// brackets the most. INP is the longest answer to ten keys, the first disclosure, and the first letters into the first field.
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const { chromium } = createRequire(import.meta.url)(join(here, '../TeamCircle.Browser.Tests/bin/Debug/net10.0/.playwright/package'));
const [base, email, passphrase, ...rest] = process.argv.slice(2);
const rounds = /^\d+$/.test(rest[0] ?? '') ? Number(rest.shift()) : 5;
const slow = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 0.75e6 / 8 };

/** Runs in the page before its own scripts. */
function watch() {
  const seen = (window.__seen = { lcp: 0, cls: 0, inp: 0 });
  const on = (type, use, more) => new PerformanceObserver(list => list.getEntries().forEach(use)).observe({ type, buffered: true, ...more });
  on('largest-contentful-paint', e => (seen.lcp = e.startTime));
  on('layout-shift', e => { if (!e.hadRecentInput) seen.cls += e.value; });
  on('event', e => { if (e.interactionId) seen.inp = Math.max(seen.inp, e.duration); }, { durationThreshold: 16 });
}

async function signedIn(browser) {
  const context = await browser.newContext({ baseURL: base });
  const page = await context.newPage();
  await page.goto('/sign-in');
  await page.getByLabel('E-mail address').fill(email);
  await page.getByLabel('Password').fill(passphrase);
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.waitForURL(url => !url.pathname.startsWith('/sign-in'));
  const state = await context.storageState();
  await context.close();
  return state;
}

async function useIt(page) {
  for (let i = 0; i < 10; i++) await page.keyboard.press('Tab');
  const fold = page.locator('main summary:visible').first();
  if (await fold.count()) await fold.click();
  const field = page.locator('main input:visible:not([type=hidden]):not([type=checkbox]):not([type=radio]):not([type=file]):enabled').first();
  if (await field.count()) await field.pressSequentially('12');
}

async function visit(page, path) {
  const cdp = await page.context().newCDPSession(page);
  await cdp.send('Network.enable');
  const sent = { bytes: 0, requests: 0, foreign: 0 };
  cdp.on('Network.requestWillBeSent', e => { if (!e.request.url.startsWith('data:')) { sent.requests++; if (!e.request.url.startsWith(base)) sent.foreign++; } });
  cdp.on('Network.responseReceived', e => { if (e.response.fromDiskCache) sent.requests--; });
  cdp.on('Network.loadingFinished', e => (sent.bytes += e.encodedDataLength));
  await cdp.send('Network.emulateNetworkConditions', slow);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.goto(path, { waitUntil: 'networkidle' });
  const bytes = sent.bytes, requests = sent.requests;
  await useIt(page);
  await page.evaluate(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))));
  const seen = await page.evaluate(() => window.__seen);
  await cdp.detach();
  return { ...seen, bytes, requests, foreign: sent.foreign };
}

const median = values => [...values].sort((a, b) => a - b)[values.length >> 1];
const told = (all, key, digits = 0) => `${median(all.map(v => v[key])).toFixed(digits)} (${Math.max(...all.map(v => v[key])).toFixed(digits)})`;

const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', chromiumSandbox: process.getuid?.() !== 0,
  args: ['--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
});
const state = await signedIn(browser);
console.log('| page | | LCP, ms | INP, ms | CLS | kB sent | requests | to others |\n|---|---|---|---|---|---|---|---|');
for (const path of rest) {
  const results = { first: [], again: [] };
  for (let round = 0; round < rounds; round++) {
    const context = await browser.newContext({ baseURL: base, storageState: state, viewport: { width: 390, height: 844 } });
    await context.addInitScript(watch);
    for (const time of ['first', 'again']) {
      const page = await context.newPage();
      results[time].push(await visit(page, path));
      await page.close();
    }
    await context.close();
  }
  for (const [time, all] of Object.entries(results))
    console.log(`| ${path} | ${time} | ${told(all, 'lcp')} | ${told(all, 'inp')} | ${told(all, 'cls', 3)} | ${(median(all.map(v => v.bytes)) / 1000).toFixed(0)} | ${median(all.map(v => v.requests))} | ${Math.max(...all.map(v => v.foreign))} |`);
}
await browser.close();
