// What keeps the stored things closed. The data key is random; it is wrapped by a key made from the PIN, inside a wrap by a key
// of this browser that no script can read. Either alone opens nothing. Nothing here tells of a wrong PIN but that it doesn't open.
export const rounds = 600_000;

const text = new TextEncoder();
const random = length => crypto.getRandomValues(new Uint8Array(length));

export const makeBrowserKey = () => crypto.subtle.generateKey({ name: "AES-GCM", length: 256 }, false, ["encrypt", "decrypt"]);

/** @param {Uint8Array} raw 32 bytes; forgotten after this */
export const dataKeyOf = raw => crypto.subtle.importKey("raw", raw, "AES-GCM", false, ["encrypt", "decrypt"]);

async function pinKey(pin, salt) {
  const material = await crypto.subtle.importKey("raw", text.encode(pin), "PBKDF2", false, ["deriveKey"]);
  return crypto.subtle.deriveKey(
    { name: "PBKDF2", hash: "SHA-256", salt, iterations: rounds }, material, { name: "AES-GCM", length: 256 }, false, ["encrypt", "decrypt"]);
}

/** @returns what may lie on the disk: salt, and the key in its two wraps */
export async function wrap(raw, pin, browserKey) {
  const salt = random(16);
  const inner = await sealBytes(await pinKey(pin, salt), raw, "pin");
  const outer = await sealBytes(browserKey, new Uint8Array([...inner.iv, ...new Uint8Array(inner.data)]), "browser");
  return { salt, rounds, ...outer };
}

/** @returns the data key; null where the PIN is wrong */
export async function unwrap(wrapped, pin, browserKey) {
  const inner = new Uint8Array(await openBytes(browserKey, wrapped, "browser"));
  try {
    const raw = await openBytes(await pinKey(pin, wrapped.salt), { iv: inner.slice(0, 12), data: inner.slice(12) }, "pin");
    return await dataKeyOf(raw);
  } catch (failure) {
    if (failure.name === "OperationError") return null;
    throw failure;
  }
}

/** @param place where it is kept: what was sealed for one place opens in no other */
export function seal(key, value, place) {
  return sealBytes(key, text.encode(JSON.stringify(value)), place);
}

export async function unseal(key, sealed, place) {
  return JSON.parse(new TextDecoder().decode(await openBytes(key, sealed, place)));
}

export async function sealBytes(key, bytes, place) {
  const iv = random(12);
  return { iv, data: await crypto.subtle.encrypt({ name: "AES-GCM", iv, additionalData: text.encode(place) }, key, bytes) };
}

export function openBytes(key, { iv, data }, place) {
  return crypto.subtle.decrypt({ name: "AES-GCM", iv, additionalData: text.encode(place) }, key, data);
}

/** What a PIN lacks, in words; null where it will do. */
export function pinProblem(pin) {
  if (!/^\d{6,}$/.test(pin)) return "Six digits or more, and nothing else.";
  const steps = new Set([...pin].slice(1).map((digit, i) => Number(digit) - Number(pin[i])));
  return steps.size === 1 && [0, 1, -1].includes([...steps][0]) ? "This is the first that anybody would try. Take another." : null;
}
