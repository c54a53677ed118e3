// Sends what was recorded, in order, once at a time in all tabs, and lets go of nothing that the server has not named.
const mostAtOnce = 50;
export const format = 2; // the server reads the one before it too: what waits here was written by pages of then
const mostSkew = 2 ** 31 - 1; // milliseconds, 24 days: what an operation can say; a clock further off is as wrong
const ends = new Set(["stored", "setAside", "refused"]);

/**
 * One answer of the server as JSON. Whatever else comes, such as the page of a network's own sign-in with 200, is no answer.
 * @returns { status, body, askedTick }; status 0 where there was no answer
 */
export async function ask(path, options = {}) {
  const askedTick = performance.now();
  try {
    const answer = await fetch(path, { cache: "no-store", redirect: "manual", credentials: "same-origin", signal: AbortSignal.timeout(20_000), ...options });
    if (answer.status === 401 || answer.status === 404) return { status: answer.status, body: null, askedTick };
    if (!answer.ok || !answer.headers.get("content-type")?.startsWith("application/json")) return { status: answer.ok ? 0 : answer.status, body: null, askedTick };
    return { status: answer.status, body: await answer.json(), askedTick };
  } catch {
    return { status: 0, body: null, askedTick };
  }
}

/**
 * Who is signed in, what the server's clock says, and which holds there are. Null without an answer; { signedOut } where nobody is,
 * { notStaff } where it is somebody for whom these pages are not.
 */
export async function contact(device) {
  const { status, body, askedTick } = await ask("/device/contact" + (device ? `?device=${device}` : ""));
  if (status === 401) return { signedOut: true };
  if (status === 404) return { notStaff: true };
  if (typeof body?.serverTime !== "string" || typeof body.token !== "string" || !body.person) return null;
  return { ...body, askedTick };
}

export const post = (path, token, body) => ask(path, {
  method: "POST", body: JSON.stringify(body), headers: { "content-type": "application/json", RequestVerificationToken: token },
});

/** What the server said about the operations that were sent: only answers that name one of them. */
function named(sent, body) {
  const answers = new Map((Array.isArray(body?.answers) ? body.answers : []).filter(a => ends.has(a?.end)).map(a => [a.id, a]));
  return sent.filter(({ value }) => answers.has(value.id)).map(({ at, value }) => ({ at, ended: endedOf(value, answers.get(value.id)) }));
}

/** What was typed stays readable on the device where a person has to look at it again. */
function endedOf({ id, kind, made, label, body }, { end, why, answer }) {
  return { id, kind, made, label, end, why: why ?? null, answer: answer ?? null, body: end === "stored" ? null : body };
}

const wire = ({ id, format: written, kind, made, skewMs, body }) => ({ id, format: written, kind, made, skewMs: skewMs == null ? undefined : Math.max(-mostSkew, Math.min(mostSkew, skewMs)), body });

/**
 * Sends all that waits. @param store whose it is @param door the same person's @param skew filled in where it was not known at the time
 * @returns { state: "sent" | "busy" | "signedOut" | "notYours" | "revoked" | "noAnswer" | "otherFormat", ended: [what was answered] }
 */
export async function send(store, door, skew) {
  return navigator.locks.request(lockOf(door), { ifAvailable: true }, async lock => lock ? sendAll(store, door, skew) : { state: "busy", ended: [] });
}

const lockOf = door => `practise-send-${door.store}`;

/** Ends when no other tab is sending any more. */
export const othersDone = door => navigator.locks.request(lockOf(door), () => {});

async function sendAll(store, door, skew) {
  const heard = await contact(door.device);
  const state = standing(heard, door);
  // What a device that was taken away had not sent is still its person's: the server says whether it takes it.
  if (state !== "sent" && state !== "revoked") return { state, ended: [], heard };
  skew.hear(heard.serverTime, heard.askedTick);
  const ended = [];
  for (;;) {
    const sent = (await store.queued()).slice(0, mostAtOnce);
    if (sent.length === 0) return { state, ended, heard };
    const operations = sent.map(({ value }) => wire({ ...value, skewMs: value.skewMs ?? skew.ms }));
    const { status, body } = await post("/device/operations", heard.token, { device: door.device, operations });
    const list = named(sent, body);
    await store.answered(list);
    ended.push(...list.map(one => one.ended));
    // An answer that names none of them would be asked for again and again: leave it for later.
    if (list.length === 0) return { state: state === "revoked" ? state : status === 401 ? "signedOut" : "noAnswer", ended, heard };
  }
}

/** "sent" where sending may begin. */
export function standing(heard, door) {
  if (heard === null) return "noAnswer";
  if (heard.signedOut) return "signedOut";
  if (heard.notStaff) return "notYours";
  if (heard.person.id !== door.person) return "notYours";
  if (heard.device?.state === "revoked") return "revoked";
  if (heard.formats && (heard.formats.least > format || heard.formats.most < format)) return "otherFormat";
  return "sent";
}

/** An operation as it waits. @param label words for the waiting page, without a name: they lie sealed on the device */
export function operationOf(kind, id, body, label, skew) {
  return { id, format, kind, made: new Date().toISOString(), skewMs: skew.ms, label, body };
}
