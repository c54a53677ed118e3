// Every page of a running demonstration, by everyone who can reach it, held against WCAG 2.2 AA as far as a script can see: docs/accessibility.md says what is asked and
// what only a person sees. Prints what it found by rule and page; the exit code is 1 where something was found.
//
//   node tests/drills/accessibility.mjs http://localhost:5000 [--only TEXT] [--people odalys,marisol] [--each 1] [--forms] [--list] [--pictures FOLDER]
//
// --only: pages whose address has TEXT; --each: pages of one kind that are looked at; --forms: afterwards sends each form empty (never run that on real records);
// --list: also links of one name to several places, which WCAG allows where the text around them tells them apart; --pictures: each page at five widths and four looks.
// Needs the browser tests to be built (their driver and their axe are used) and the demonstration's accounts. It reads only, but for --forms.
import { createRequire } from 'node:module';
import { mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as ask from './accessibility-page.mjs';

const built = join(dirname(fileURLToPath(import.meta.url)), '../TeamCircle.Browser.Tests/bin/Debug/net10.0');
const { chromium } = createRequire(import.meta.url)(join(built, '.playwright/package'));
const [base, ...rest] = process.argv.slice(2);
const told = name => { const at = rest.indexOf(`--${name}`); return at < 0 ? undefined : rest[at + 1] ?? true; };
const each = Number(told('each') ?? 1), only = told('only') ?? '', pictures = told('pictures');
const emails = { marisol: 'tallowfern', odalys: 'tallowfern', dele: 'tallowfern', solveig: 'tallowfern', bram: 'tallowfern', tomasz: 'tallowfern', priya: 'tallowfern', ines: 'family', corin: 'monitoring' };
const people = ['nobody', ...Object.keys(emails)].filter(p => !told('people') || told('people').split(',').includes(p));
const starts = { nobody: ['/sign-in', '/no-such-page'], odalys: ['/', '/practise'] };
const never = /\.(ics|csv|xlsx|pdf|zip|html|js|png|svg|webmanifest)$|handler=|^\/sign-out|^\/feed|^\/lib|^\/css|^\/device/i;

/** The script of axe, as the tests' own package carries it: the length stands in four bytes before it. */
function axeOfTests() {
  const dll = readFileSync(join(built, 'Deque.AxeCore.Commons.dll')), at = dll.indexOf('/*! axe v');
  return dll.subarray(at, at + dll.readInt32LE(at - 4)).toString('utf8');
}
const axe = axeOfTests();

const findings = new Map(), titles = new Map(), measured = new Map();
const kind = url => url.pathname.replace(/\/\d{4}-\d\d(-\d\d)?(?=\/|$)/g, '/{date}').replace(/\/[0-9a-f]{8}-[0-9a-f-]{27}/gi, '/{id}').replace(/\/\d+/g, '/{id}')
  + ([...url.searchParams.keys()].length ? '?' + [...new Set(url.searchParams.keys())].sort().join('&') : '');

function note(where, found) {
  for (const [rule, what] of found) {
    if (!findings.has(rule)) findings.set(rule, new Map());
    const places = findings.get(rule);
    places.set(where, [...(places.get(where) ?? []), what]);
  }
}

const axeOn = async (page, look, only) => {
  const options = only ? { runOnly: { type: 'rule', values: only }, resultTypes: ['violations'] } : { rules: { 'target-size': { enabled: true } }, resultTypes: ['violations'] };
  const result = await page.evaluate(async o => (await axe.run(document, o)).violations.flatMap(v => v.nodes.map(n => [v.id, n.html.replace(/\s+/g, ' ').slice(0, 130)])), options);
  return result.map(([rule, what]) => [`axe, ${look}: ${rule}`, what]);
};

/** The Tab key from the head of the page to its end; the keys are sent without waiting for each. */
async function walk(page) {
  const size = await page.evaluate(ask.stops), cdp = await page.context().newCDPSession(page);
  await page.evaluate(ask.watchStops);
  const key = { key: 'Tab', code: 'Tab', windowsVirtualKeyCode: 9 };
  const sent = Array.from({ length: size + 25 }, () => [cdp.send('Input.dispatchKeyEvent', { type: 'rawKeyDown', ...key }), cdp.send('Input.dispatchKeyEvent', { type: 'keyUp', ...key })]);
  await Promise.all(sent.flat());
  await cdp.detach();
  return page.evaluate(ask.unreached);
}

async function measure(page, where) {
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none', reducedMotion: 'no-preference', contrast: 'no-preference' });
  await page.evaluate(axe);
  note(where, await page.evaluate(ask.standing));
  if (rest.includes('--list')) note(where, await page.evaluate(ask.twins));
  note(where, await walk(page));
  note(where, await axeOn(page, 'light'));
  for (const [look, media] of Object.entries({ dark: { colorScheme: 'dark' }, 'more contrast': { contrast: 'more' } })) {
    await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none', contrast: 'no-preference', ...media });
    await page.evaluate(() => new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    note(where, await axeOn(page, look, ['color-contrast', 'link-in-text-block']));
  }
  await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none', contrast: 'no-preference', reducedMotion: 'reduce' });
  note(where, await page.evaluate(ask.motion));
  await sizes(page, where);
}

async function sizes(page, where) {
  const cdp = await page.context().newCDPSession(page);
  const before = new Set((await page.evaluate(ask.cut, 'cut off')).map(String));
  const anew = found => found.filter(([, what]) => !before.has(['cut off', what].join()));
  await page.evaluate(ask.space, true);
  note(where, anew(await page.evaluate(ask.cut, 'cut off by wider spacing (1.4.12)')));
  await page.setViewportSize({ width: 320, height: 800 });
  note(where, await page.evaluate(ask.width, 'wider than 320 px with wider spacing (1.4.12)'));
  await page.evaluate(ask.space, false);
  note(where, await page.evaluate(ask.width, 'wider than 320 px (1.4.10)'));
  note(where, await page.evaluate(ask.cut, 'cut off at 320 px'));
  await page.setViewportSize({ width: 390, height: 844 });
  note(where, await axeOn(page, '390 px', ['target-size', 'scrollable-region-focusable']));
  await cdp.send('Page.setFontSizes', { fontSizes: { standard: 32, fixed: 26 } });
  note(where, await page.evaluate(ask.width, '200 % text at 390 px (1.4.4)'));
  note(where, await page.evaluate(ask.cut, 'cut off at 200 % text'));
  await cdp.send('Page.setFontSizes', { fontSizes: { standard: 16, fixed: 13 } });
  await cdp.detach();
}

async function picture(page, where) {
  const looks = { light: {}, dark: { colorScheme: 'dark' }, forced: { forcedColors: 'active' }, contrast: { contrast: 'more' } };
  for (const width of [320, 390, 768, 1280, 1920])
    for (const [look, media] of Object.entries(looks)) {
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none', contrast: 'no-preference', ...media });
      await page.screenshot({ fullPage: true, path: join(pictures, `${where.replace(/[^a-z0-9]+/gi, '-')}-${width}-${look}.png`) });
    }
}

async function signIn(context, person) {
  const page = await context.newPage();
  if (person === 'nobody') return page;
  await page.goto('/sign-in');
  await page.getByLabel('E-mail address').fill(`${person}@${emails[person]}.example`);
  await page.getByLabel('Password').fill('herbs towel ribbons banana');
  await page.getByRole('button', { name: 'Sign in', exact: true }).click();
  await page.waitForURL(url => !url.pathname.startsWith('/sign-in'));
  return page;
}

/** Sends the page's form with every field empty; a refusal must be told, tied to its fields, and lose nothing. */
async function sendEmpty(page, where) {
  const form = page.locator('main form[method=post]:has(:is(input:not([type=hidden]), select, textarea))').first();
  if (!await form.count() || /end|back|undo|withdraw|quiet|sign|reason/i.test(where)) return;
  await form.evaluate(f => {
    f.noValidate = true;
    for (const e of f.elements) { if (/^(text|email|date|time|number|password|textarea|search)$/.test(e.type)) e.value = ''; else if (/checkbox|radio/.test(e.type)) e.checked = false; }
    for (const e of f.querySelectorAll('select')) e.value = '';
  });
  await Promise.all([page.waitForNavigation(), form.evaluate(f => void setTimeout(() => f.requestSubmit(f.querySelector('button:not([formaction], .unseen)') ?? undefined)))]);
  note(`${where}, sent empty`, await page.evaluate(ask.refused));
  if (!await page.locator('.problems').count()) return;
  await page.evaluate(axe);
  note(`${where}, sent empty`, await axeOn(page, 'light'));
}

async function look(page, person, path) {
  const answer = await page.goto(path, { waitUntil: 'load' }).catch(() => null);
  if (!answer || !/html/.test(answer.headers()['content-type'] ?? '')) return [];
  const where = kind(new URL(page.url()));
  const seen = measured.get(where) ?? 0;
  const links = await page.evaluate(() => [...document.querySelectorAll('a[href]')].map(a => a.href));
  if (seen >= each || !where.includes(only)) return links;
  measured.set(where, seen + 1);
  const began = Date.now();
  await measure(page, where);
  if (pictures) await picture(page, where);
  const title = await page.title();
  titles.set(title, (titles.get(title) ?? new Set()).add(where.replace(/\?.*/, '')));
  if (rest.includes('--forms')) await sendEmpty(page, where);
  process.stderr.write(`${person} ${where} ${Date.now() - began} ms\n`);
  return links;
}

async function crawl(browser, person) {
  const context = await browser.newContext({ baseURL: base, serviceWorkers: 'block', acceptDownloads: false });
  context.setDefaultTimeout(120_000);
  const page = await signIn(context, person);
  const asked = new Map(), queue = [...(starts[person] ?? ['/'])];
  while (queue.length) {
    const links = await look(page, person, queue.shift()).catch(error => { note('a page', [['the drill itself', `${person} ${page.url()}: ${error.message.slice(0, 200)}`]]); return []; });
    for (const link of links) {
      const url = new URL(link);
      const type = kind(url);
      if (url.origin !== new URL(base).origin || never.test(url.pathname + url.search) || (asked.get(type) ?? 0) >= each) continue;
      asked.set(type, (asked.get(type) ?? 0) + 1);
      queue.push(url.pathname + url.search);
    }
  }
  await context.close();
}

function report() {
  for (const [title, pages] of titles) if (pages.size > 1) note([...pages].join(', '), [['one title for several pages (2.4.2)', title]]);
  console.log(`${measured.size} kinds of page, ${[...measured.values()].reduce((a, b) => a + b, 0)} pages looked at, ${findings.size} rules with findings\n`);
  for (const [rule, places] of [...findings].sort())
    console.log(`## ${rule}: ${places.size} pages\n\n| page | times | the first |\n|---|---|---|\n${[...places].map(([at, what]) => `| ${at} | ${what.length} | ${what[0].replaceAll('|', '/')} |`).join('\n')}\n`);
  process.exit(findings.size > 0 ? 1 : 0);
}

process.on('SIGINT', report).on('SIGTERM', report); // what was found until then
if (pictures) mkdirSync(pictures, { recursive: true });
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium-headless-shell', chromiumSandbox: process.getuid?.() !== 0, args: ['--disable-gpu'], handleSIGINT: false, handleSIGTERM: false });
for (const person of people) await crawl(browser, person).catch(error => note(person, [['the drill itself', error.message.slice(0, 300)]]));
await browser.close();
report();
