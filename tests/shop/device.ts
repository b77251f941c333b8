// A device as a process of its own: it joins a job, changes it without end, and says what was acknowledged.
// argv: port, cookie, job, name, pause between changes (ms).

import * as Y from "yjs";
import { share } from "../../src/app/model/shop/index.ts";
import { type JobDocument, toJson, write } from "../../src/shared/index.ts";
import { lineAt } from "./wire.ts";

const [port = "", cookie = "", job = "", name = "", pause = "10"] = process.argv.slice(2);
const line = lineAt(port, cookie);
const doc = new Y.Doc();
const mine = share({ doc, job, line, isNew: false, seen: 0 });
await mine.opened;
let made = 0;
let told = 0;
mine.subscribe(() => {
  if (mine.state().is !== "kept" || told === made) return;
  told = made;
  process.stdout.write(`kept ${made}\n`);
});
process.stdout.write("open\n");
/** So many changes in a row, then what was made is waited for: there is always something on its way. */
const ROW = 5;
setInterval(() => {
  if (made - told >= ROW) return;
  made++;
  const now = toJson(doc) as { tubes: JobDocument };
  write(doc, { ...now, tubes: { ...now.tubes, [`${name}-${made}`]: { od: made, wall: 2 } } }, "me");
}, Number(pause));
