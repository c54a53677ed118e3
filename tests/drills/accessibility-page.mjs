// What accessibility.mjs asks of one page. Each function runs inside the page and returns findings: [rule, what it found where].

/** One main heading; nothing that moves; links of one name to several places; personal fields that the browser could fill; elements that only a mouse reaches. */
export function standing() {
  const found = [];
  const shown = e => e.checkVisibility({ visibilityProperty: true }) && !e.closest('[hidden]');
  const headings = [...document.querySelectorAll('h1')].filter(shown).length;
  if (headings !== 1) found.push(['one main heading', `${headings}`]);
  if (!document.querySelector('main')) found.push(['a main part', 'none']);
  if (document.title.trim().length < 3 || document.title.trim().startsWith('-')) found.push(['a title', document.title]);
  for (const e of document.querySelectorAll('input')) {
    const fill = { email: /email|username/, tel: /tel/, password: /password/ }[e.type];
    const isOthers = /^\/(people|settings|learners)/.test(location.pathname);
    if (fill && shown(e) && !isOthers && !fill.test(e.autocomplete)) found.push(['purpose of a personal field (1.3.5)', `${e.type} ${e.name}`]);
  }
  for (const e of document.querySelectorAll('[aria-describedby], [aria-labelledby]'))
    for (const id of `${e.getAttribute('aria-describedby') ?? ''} ${e.getAttribute('aria-labelledby') ?? ''}`.trim().split(/\s+/))
      if (!document.getElementById(id)) found.push(['names what is not there', `${e.tagName.toLowerCase()} #${id}`]);
  const ids = [...document.querySelectorAll('[id]')].map(e => e.id);
  for (const id of new Set(ids.filter((id, i) => ids.indexOf(id) !== i))) found.push(['one id twice', id]);
  for (const e of document.querySelectorAll('[onclick], [tabindex]:not([tabindex="-1"]):not([tabindex="0"]), [draggable="true"]')) found.push(['an order or act of its own', e.outerHTML.slice(0, 90)]);
  return found;
}

/** Links of one name that lead to several places, outside lists and tables, whose row says which is meant (list only; 2.4.4 allows context). */
export function twins() {
  const places = new Map();
  for (const a of document.querySelectorAll('a[href]')) {
    if (a.closest('li, tr, svg, nav, .planned, .line, article, dd') || !a.checkVisibility()) continue;
    const name = (a.getAttribute('aria-label') ?? a.textContent).trim().replace(/\s+/g, ' ');
    places.set(name, (places.get(name) ?? new Set()).add(a.href));
  }
  return [...places].filter(([, to]) => to.size > 1).map(([name, to]) => ['one name, several places', `${name} (${to.size})`]);
}

/** With less motion asked for, nothing moves or fades. */
export function motion() {
  const found = document.getAnimations().map(a => ['moves', a.effect?.target?.outerHTML?.slice(0, 80) ?? 'something']);
  for (const e of document.querySelectorAll('*')) {
    const style = getComputedStyle(e);
    if (style.animationName !== 'none' || style.transitionDuration.split(',').some(d => parseFloat(d) > 0.01)) found.push(['moves', e.outerHTML.slice(0, 80)]);
    if (style.scrollBehavior === 'smooth') found.push(['moves', 'smooth scrolling']);
  }
  return found;
}

/** Nothing is wider than the window but what scrolls in a box of its own (a table, a timetable, a chart). */
export function width(rule) {
  const wide = innerWidth;
  if (document.documentElement.scrollWidth <= wide + 1) return [];
  const inBox = e => { for (let p = e.parentElement; p && p !== document.body; p = p.parentElement) if (getComputedStyle(p).overflowX !== 'visible') return true; return false; };
  const culprits = [...document.querySelectorAll('body *')].filter(e => e.getBoundingClientRect().right > wide + 1 && !inBox(e) && ![...e.children].some(c => c.getBoundingClientRect().right > wide + 1));
  return [[rule, `${document.documentElement.scrollWidth} px: ${culprits.slice(0, 2).map(e => e.outerHTML.replace(/\s+/g, ' ').slice(0, 90)).join(' | ')}`]];
}

/** Text that is cut off by its own box, at the spacing, size and width now set. */
export function cut(rule) {
  const found = [];
  for (const e of document.querySelectorAll('main *, header *, footer *')) {
    if (e.closest('.unseen, .cells, thead, option') || !e.textContent.trim() || !e.checkVisibility() || e instanceof HTMLSelectElement) continue;
    const style = getComputedStyle(e);
    if (style.clipPath !== 'none' || style.position === 'absolute' && e.clientWidth <= 1) continue;
    const hides = way => way === 'hidden' || way === 'clip';
    if (hides(style.overflowX) && e.scrollWidth > e.clientWidth + 1 || hides(style.overflowY) && e.scrollHeight > e.clientHeight + 2)
      found.push([rule, `${e.tagName.toLowerCase()}.${e.className}: ${e.textContent.trim().replace(/\s+/g, ' ').slice(0, 50)}`]);
  }
  return found;
}

/** Sets the spacing of text that 1.4.12 names; false takes it back. */
export function space(isOn) {
  const sheet = (window.__spaced ??= new CSSStyleSheet());
  sheet.replaceSync('* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-block-end: 2em !important; }');
  document.adoptedStyleSheets = isOn ? [sheet] : [];
}

/** Marks what the Tab key should reach, and remembers how each looks without the focus. */
export function stops() {
  window.__look = e => { const s = getComputedStyle(e); return [s.outlineStyle, s.outlineWidth, s.boxShadow, s.backgroundColor, s.borderBottomColor, s.insetBlockStart].join(); };
  window.__left = new Map();
  document.activeElement?.blur?.();
  for (const e of document.querySelectorAll(':is(a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex="0"]):not([tabindex="-1"])'))
    if (!e.disabled && e.checkVisibility({ visibilityProperty: true }) && e.type !== 'radio') window.__left.set(e, window.__look(e));
  for (const e of document.querySelectorAll('*')) {
    const style = getComputedStyle(e);
    if (/auto|scroll/.test(style.overflowX + style.overflowY) && (e.scrollWidth > e.clientWidth || e.scrollHeight > e.clientHeight)) (window.__boxes ??= new Set()).add(e);
  }
  const parts = document.querySelectorAll('input:is([type=date], [type=time], [type=month])').length; // each has stops of its own inside
  return window.__left.size + parts * 4;
}

/** What each stop of the Tab key shows, gathered while the keys go by: the focus is seen, and nothing lies over it. */
export function watchStops() {
  window.__stops = [];
  document.addEventListener('focusin', event => {
    const e = event.target, told = e.outerHTML.replace(/\s+/g, ' ').slice(0, 110);
    const before = window.__left.get(e);
    window.__left.delete(e);
    const style = getComputedStyle(e);
    const outlined = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
    if (!outlined && (before === undefined || before === window.__look(e)) && !window.__boxes?.has(e)) window.__stops.push(['focus is not seen', told]);
    e.scrollIntoView({ block: 'nearest' });
    const box = e.getClientRects()[0] ?? e.getBoundingClientRect();
    const x = Math.min(Math.max(box.left + Math.min(box.width, 40) / 2, 0), innerWidth - 1), top = document.elementFromPoint(x, box.top + box.height / 2);
    if (top && !e.contains(top) && !top.contains(e) && ![...(e.labels ?? [])].some(l => l.contains(top))) window.__stops.push(['focus is covered', `${told} by ${top.outerHTML.slice(0, 60)}`]);
  });
}

/** What was wrong at the stops, and what the Tab key did not reach. */
export function unreached() {
  document.activeElement?.blur(); // the walk may end on the skip link, which lies over the brand while it has the focus
  return [...window.__stops, ...[...window.__left.keys()].filter(e => e.checkVisibility()).map(e => ['Tab does not reach', e.outerHTML.replace(/\s+/g, ' ').slice(0, 110)])];
}

/** After a form was refused: the list of problems is announced, and each problem is tied to a field that says it is wrong. */
export function refused() {
  const found = [], list = document.querySelector('.problems');
  if (!list) return [];
  if (list.getAttribute('role') !== 'alert') found.push(['problems are not announced', '']);
  for (const a of list.querySelectorAll('a[href^="#"]')) {
    const field = document.getElementById(decodeURIComponent(a.hash.slice(1)));
    if (!field) { found.push(['a problem leads nowhere', `${a.hash} ${a.textContent}`]); continue; }
    const control = field.matches('input, select, textarea') ? field : field.querySelector('input, select, textarea') ?? field;
    const said = (control.getAttribute('aria-describedby') ?? '').split(/\s+/).map(id => document.getElementById(id)?.textContent ?? '').join(' ');
    if (control.getAttribute('aria-invalid') !== 'true') found.push(['a wrong field does not say so', `${a.hash} ${a.textContent}`]);
    else if (!said.includes(a.textContent.trim())) found.push(['a wrong field does not say why', `${a.hash} ${a.textContent}`]);
  }
  if (!/problem|mend|corregir/i.test(list.textContent + document.title) && !list.querySelector('p')) found.push(['problems have no heading', '']);
  return found;
}
