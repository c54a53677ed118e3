/** A version 7 UUID: made here, ordered by the time at which it was made. */
export function newId(wallNow = Date.now()) {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  new DataView(bytes.buffer).setUint32(0, Math.floor(wallNow / 0x10000));
  new DataView(bytes.buffer).setUint16(4, wallNow % 0x10000);
  bytes[6] = 0x70 | bytes[6] & 0x0f;
  bytes[8] = 0x80 | bytes[8] & 0x3f;
  const hex = Array.from(bytes, b => b.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
