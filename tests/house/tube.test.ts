import { join } from "node:path";
import ts from "typescript";
import { expect, it } from "vitest";

/** The rooms that know what a tube's section looks like: they shape it. All others ask `core/tube`. */
const SHAPES = /^src\/core\/(tube|cope|mesh|bend)\//;

const root = process.cwd();
const PLANTED = join(root, "src/core/survey/planted.ts");
const PLANT = `import type { ResolvedBar } from "../layout/types.ts";
import type { Tube } from "../job/types.ts";
export const half = (bar: ResolvedBar): number => bar.tube.od / 2;
export const bore = ({ od, wall }: Pick<Tube, "od" | "wall">): number => od - 2 * wall;
export const thick = (tubes: Readonly<Record<string, Tube>>): number => tubes["a"]!["wall"];
export const torch = (torch: { readonly od: number }): number => torch.od;
`;

/** The sources outside the rooms of shape, checked together with one file that is not there. */
function program(): ts.Program {
  const config = ts.getParsedCommandLineOfConfigFile(
    "tsconfig.json",
    {},
    {
      ...ts.sys,
      onUnRecoverableConfigFileDiagnostic: () => {},
    },
  );
  if (!config) throw new Error("tsconfig.json is not read");
  const options = { ...config.options, noEmit: true, types: [] };
  const host = ts.createCompilerHost(options);
  const { fileExists, readFile, getSourceFile } = host;
  host.fileExists = (name) => name === PLANTED || fileExists(name);
  host.readFile = (name) => (name === PLANTED ? PLANT : readFile(name));
  host.getSourceFile = (name, version, ...rest) =>
    name === PLANTED ? ts.createSourceFile(name, PLANT, version) : getSourceFile(name, version, ...rest);
  const sources = config.fileNames.filter((name) => /\/src\//.test(name) && !/\.test\.tsx?$/.test(name));
  return ts.createProgram([...sources, PLANTED], options, host);
}

const checked = program();
const types = checked.getTypeChecker();

/** Whether a property is `od` or `wall` of the job's tube, whatever it is picked into. */
const isOfTube = (property: ts.Symbol | undefined): boolean =>
  (property?.declarations ?? []).some(
    (d) =>
      ts.isInterfaceDeclaration(d.parent) &&
      d.parent.name.text === "Tube" &&
      d.getSourceFile().fileName.endsWith("core/job/types.ts"),
  );

/** The places of a file where a tube's outside diameter or wall is read. */
function reads(file: ts.SourceFile): readonly string[] {
  const found: string[] = [];
  const name = file.fileName.slice(root.length + 1);
  const see = (node: ts.Node, property: ts.Symbol | undefined): void => {
    if (!isOfTube(property)) return;
    const { line } = file.getLineAndCharacterOfPosition(node.getStart(file));
    found.push(`${name}:${line + 1} ${node.getText(file)}`);
  };
  const walk = (node: ts.Node): void => {
    if (ts.isPropertyAccessExpression(node) && /^(od|wall)$/.test(node.name.text))
      see(node, types.getSymbolAtLocation(node.name));
    if (
      ts.isElementAccessExpression(node) &&
      /^["'](od|wall)["']$/.test(node.argumentExpression.getText(file))
    )
      see(
        node,
        types
          .getTypeAtLocation(node.expression)
          .getProperty(node.argumentExpression.getText(file).slice(1, -1)),
      );
    if (ts.isBindingElement(node) && ts.isObjectBindingPattern(node.parent)) {
      const key = (node.propertyName ?? node.name).getText(file);
      if (/^(od|wall)$/.test(key)) see(node, types.getTypeAtLocation(node.parent).getProperty(key));
    }
    ts.forEachChild(node, walk);
  };
  walk(file);
  return found;
}

const outside = checked
  .getSourceFiles()
  .filter((f) => f.fileName.startsWith(`${root}/src/`) && !SHAPES.test(f.fileName.slice(root.length + 1)));

it("nothing but what shapes the tube reads its outside diameter or wall; all else asks core/tube", () => {
  expect(outside.length).toBeGreaterThan(400);
  expect(outside.filter((f) => f.fileName !== PLANTED).flatMap(reads)).toEqual([]);
}, 120_000);

it("the check bites, however it is read, and only on tubes", () => {
  const planted = outside.find((f) => f.fileName === PLANTED);
  expect(planted ? reads(planted) : []).toEqual([
    "src/core/survey/planted.ts:3 bar.tube.od",
    "src/core/survey/planted.ts:4 od",
    "src/core/survey/planted.ts:4 wall",
    'src/core/survey/planted.ts:5 tubes["a"]!["wall"]',
  ]);
}, 120_000);
