import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { expect, it } from "vitest";

const sheets = readdirSync("src/app", { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".css"))
  .map((name) => join("src/app", name));

it("every module of styles has a file name of its own: its classes are named by it in the page", () => {
  const names = sheets.filter((path) => path.endsWith(".module.css")).map((path) => basename(path));
  expect(names.length).toBeGreaterThan(20);
  expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
});

it("a sheet that writes into a layer names the order of layers first: it may be the first one loaded", () => {
  const orderless = sheets.filter((path) => {
    const [first = ""] = /@layer [^;{]*[;{]/.exec(readFileSync(path, "utf8")) ?? [];
    return first !== "" && first !== "@layer base, parts;";
  });
  expect(orderless).toEqual([]);
});
