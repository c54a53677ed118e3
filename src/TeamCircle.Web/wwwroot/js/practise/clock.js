// Time of a practice and time of the wall are two things: the first only ever goes on, the second may be wrong or be set.

/** Milliseconds since a practice began, by the browser's monotonic clock: setting the tablet's clock moves nothing. */
export class PracticeClock {
  #base;
  #from;
  #tick;

  /** @param {number} base where it stands now  @param {() => number} tick milliseconds that only ever grow */
  constructor(base = 0, tick = () => performance.now()) {
    this.#base = base;
    this.#tick = tick;
    this.#from = tick();
  }

  now() {
    return Math.round(this.#base + this.#tick() - this.#from);
  }
}

/**
 * Where a practice that was reopened stands. The monotonic clock ended with the page, so the wall's clock says how long it was
 * away, and never less than its last act: what comes next is never before what came first.
 */
export function reopenedAt(startedAt, lastAt, wallNow) {
  return Math.max(lastAt, Math.round(wallNow - Date.parse(startedAt)));
}

/** How far this device's wall clock is ahead of the server's, as far as anybody has heard. */
export class Skew {
  #heard = null;
  #remembered = null;

  constructor(wall = () => Date.now(), tick = () => performance.now()) {
    this.wall = wall;
    this.tick = tick;
  }

  /** The server's time came with an answer: it was true between asking and hearing. */
  hear(serverTime, askedTick) {
    const half = (this.tick() - askedTick) / 2;
    this.#heard = { server: Date.parse(serverTime) + half, tick: this.tick() };
  }

  /** What it was at the last contact before these pages were opened. */
  remember(ms) {
    this.#remembered = ms;
  }

  /** Milliseconds; null where no server was ever heard. Since the last contact a clock that is set shows at once. */
  get ms() {
    if (this.#heard === null) return this.#remembered;
    return Math.round(this.wall() - (this.#heard.server + this.tick() - this.#heard.tick));
  }

  /** The time as the server would say it; this device's own where no server was heard. */
  now() {
    return this.wall() - (this.ms ?? 0);
  }
}

/** The day and the time of day of a moment in a zone. @returns {{ day: string, time: string }} 2026-11-30, 08:55 */
export const momentIn = (zone, moment) => ({
  day: new Intl.DateTimeFormat("en-CA", { timeZone: zone }).format(moment),
  time: new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: zone }).format(moment),
});
