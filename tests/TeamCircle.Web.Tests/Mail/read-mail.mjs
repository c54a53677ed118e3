// Reads mails (a JSON array of base64 on standard input) with a parser that is none of the portal's own; prints what it found as JSON.
import { text } from "node:stream/consumers";
import { pathToFileURL } from "node:url";
import { createRequire } from "node:module";

const packages = createRequire(pathToFileURL(process.argv[2] + "/"));
const { default: PostalMime } = await import(pathToFileURL(packages.resolve("postal-mime")));
const mails = JSON.parse(await text(process.stdin));
const read = [];
for (const mail of mails) read.push(await (PostalMime.default ?? PostalMime).parse(Buffer.from(mail, "base64")));
process.stdout.write(JSON.stringify(read));
