// The short code by which a second observer's device names the practice that it scores, with no network between the two: it is made of
// the practice's own id, as the server makes it too (Core's ObserverCode). I and L are read as 1, O as 0.
const letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const length = 6;

export function codeOf(practice) {
  let bits = Number.parseInt(practice.slice(-8), 16), code = "";
  for (let i = 0; i < length; i++, bits = Math.floor(bits / letters.length)) code = letters[bits % letters.length] + code;
  return code;
}

/** In two halves, as it is read out. */
export const spoken = code => `${code.slice(0, 3)} ${code.slice(3)}`;

/** @returns the code as it is written; null where it is none */
export function readCode(typed) {
  const code = typed.replace(/[\s-]/g, "").toUpperCase().replace(/O/g, "0").replace(/[IL]/g, "1");
  return code.length === length && [...code].every(letter => letters.includes(letter)) ? code : null;
}
