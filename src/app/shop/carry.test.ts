import { expect, it } from "vitest";
import * as Y from "yjs";
import { originOf, packed, unpacked } from "./carry.ts";

it("jobs come out as they went in, in characters that an address may have", async () => {
  const doc = new Y.Doc();
  doc.getMap("job").set("name", "Öst +/= 1");
  const jobs = [{ id: "a", name: "Öst +/= 1", update: Y.encodeStateAsUpdate(doc) }];
  const text = await packed(jobs);
  expect(text).toMatch(/^[\w-]+$/);
  expect(await unpacked(text)).toEqual(jobs);
});

it.each(["", "rubbish", "H4sIAAAAAAAAAwMAAAAAAAAAAAA"])("%j is nothing that was packed", async (text) => {
  expect(await unpacked(text)).toBeUndefined();
});

it.each([
  ["192.168.1.7", "https://192.168.1.7:8735"],
  [" 192.168.1.7:9000 ", "https://192.168.1.7:9000"],
  ["https://shop.local:8735/join?code=X", "https://shop.local:8735"],
  ["shop.local", "https://shop.local:8735"],
])("%j is the address %s", (typed, origin) => expect(originOf(typed)).toBe(origin));

it.each(["", "http://192.168.1.7:8734", "not an address", "javascript:alert(1)"])("%j is none", (typed) =>
  expect(originOf(typed)).toBeUndefined(),
);
