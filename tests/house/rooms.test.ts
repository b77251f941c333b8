import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";

/** Runs the import check over a folder of the checkout. */
function cruise(folder: string): {
  readonly modules: number;
  readonly broken: readonly string[];
  readonly imports: readonly (readonly [from: string, to: string])[];
} {
  const done = spawnSync(
    process.execPath,
    [
      "node_modules/dependency-cruiser/bin/dependency-cruise.mjs",
      folder,
      "--config",
      ".dependency-cruiser.cjs",
      "--output-type",
      "json",
    ],
    { encoding: "utf8", maxBuffer: 1 << 28 },
  );
  const result = JSON.parse(done.stdout) as {
    modules: { source: string; dependencies: { resolved: string }[] }[];
    summary: { totalCruised: number; violations: { rule: { name: string }; from: string; to: string }[] };
  };
  return {
    modules: result.summary.totalCruised,
    broken: result.summary.violations.map((v) => `${v.rule.name}: ${v.from} → ${v.to}`),
    imports: result.modules.flatMap((m) =>
      m.dependencies.map(({ resolved }) => [m.source, resolved] as const),
    ),
  };
}

/** Folders that import each other, or a folder and a file beside it: whatever is drawn as two rooms at any level. */
function bothWays(imports: readonly (readonly [from: string, to: string])[]): readonly string[] {
  const arrows = new Set<string>();
  for (const [from, to] of imports) {
    if (!to.startsWith("src/") || /\.test\.tsx?$/.test(from)) continue;
    const [a, b] = [from.split("/"), to.split("/")];
    const shared = a.findIndex((part, i) => part !== b[i]);
    if (shared < 0 || (a.length === shared + 1 && b.length === shared + 1)) continue;
    arrows.add([a, b].map((path) => path.slice(0, shared + 1).join("/")).join(" ↔ "));
  }
  return [...arrows].filter((arrow) => {
    const [a = "", b = ""] = arrow.split(" ↔ ");
    return a < b && arrows.has(`${b} ↔ ${a}`);
  });
}

const planted: string[] = [];
/** A file planted in a room for the length of a test. */
function plant(room: string, text: string): void {
  mkdirSync(room, { recursive: true });
  const folder = mkdtempSync(join(room, "planted-"));
  planted.push(folder);
  writeFileSync(join(folder, "planted.ts"), text);
}
afterAll(() => {
  for (const folder of planted) rmSync(folder, { recursive: true, force: true });
});

describe("which way imports run", () => {
  it("no room imports what it may not, and the check saw the code", () => {
    const { modules, broken, imports } = cruise("src");
    expect(broken).toEqual([]);
    expect(bothWays(imports)).toEqual([]);
    expect(modules).toBeGreaterThan(100);
  });

  it("two folders that import each other are seen, at any level, and a face that lists its own rooms is none", () => {
    expect(
      bothWays([
        ["src/core/fit/way/a.ts", "src/core/fit/scene/b.ts"],
        ["src/core/fit/scene/sub/c.ts", "src/core/fit/way/index.ts"],
        ["src/core/fit/index.ts", "src/core/fit/way/index.ts"],
        ["src/draw/tile.ts", "src/draw/parts/check.ts"],
        ["src/draw/parts/check.ts", "src/draw/types.ts"],
        ["src/draw/types.ts", "src/draw/tile.ts"],
      ]),
    ).toEqual(["src/core/fit/scene ↔ src/core/fit/way"]);
  });

  it("the check bites", () => {
    plant(
      "src/core/cope",
      'import "../../bend/index.ts";\nimport "../../../cli/main.ts";\nimport "node:fs";\n',
    );
    plant("src/core/fit/joint", 'import "../../way/index.ts";\nimport "../../scene/pose.ts";\n');
    plant("src/draw", 'import "../../core/bar/index.ts";\n');
    plant("src/words", 'import "../../draw/index.ts";\nimport "../../core/bend/index.ts";\n');
    plant("src/cards", 'import "../../words/cautions.ts";\n');
    plant("src/core/bend", 'import "../../../words/index.ts";\n');
    plant("src/app/model/document", 'import "../../compute/index.ts";\nimport "../../../kit/index.ts";\n');
    plant("src/app/kit", 'import "../../cage/index.ts";\nimport "../../model/state/state.ts";\n');
    plant("src/app/stations/car", 'import "../../wall/index.ts";\nimport "../../../shell/index.ts";\n');
    plant("src/app/between", 'import "../../stations/bender/index.ts";\n');
    plant("src/app/garage", 'import "../../kit/index.ts";\n');
    plant("src/core/estimate", 'import "../../space/index.ts";\nimport "../../numeric/cholesky.ts";\n');
    plant("src/core/numeric", 'import "../../estimate/index.ts";\n');
    const { broken } = cruise("src");
    const rules = new Set(broken.map((b) => b.split(":")[0]));
    expect(rules).toContain("cope-imports");
    expect(broken.filter((b) => b.startsWith("fit-joint-imports"))).toHaveLength(2);
    expect(rules).toContain("estimate-imports");
    expect(rules).toContain("numeric-imports");
    expect(broken.some((b) => b.startsWith("through-the-face: src/core/estimate"))).toBe(true);
    expect(rules).toContain("core-stays-pure");
    expect(rules).toContain("draw-knows-no-bar");
    expect(rules).toContain("words-are-words");
    expect(rules).toContain("words-take-types");
    expect(rules).toContain("words-by-their-face");
    expect(broken.some((b) => b.startsWith("core-stays-pure: src/core/bend"))).toBe(true);
    const inApp = (room: string) => broken.filter((b) => b.startsWith(`app-${room}-imports`));
    expect(inApp("model-document")).toHaveLength(2);
    expect(inApp("kit")).toHaveLength(2);
    expect(inApp("stations-car")).toHaveLength(2);
    expect(inApp("between")).toHaveLength(1);
    expect(rules).toContain("app-rooms-are-known");
    for (const folder of planted.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
});
