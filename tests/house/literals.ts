import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";

/** A text that stands in a source file: a string, a template (its values as {}) or the text of a page. */
export interface Literal {
  readonly file: string;
  readonly line: number;
  readonly text: string;
  /** What it is given to, where that says that nobody reads it. */
  readonly unread?:
    | "an error of the program"
    | "a description in the schema"
    | "a name of styles"
    | "a name of a file's format"
    | "a selector"
    | "a statement of SQL";
}

/** The TypeScript files of a folder, tests apart, in order. */
export const sourcesUnder = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name) && !/\.test\.tsx?$|\.d\.ts$/.test(name))
    .map((name) => join(folder, name))
    .sort();

export const literalsIn = (file: string): readonly Literal[] => literalsOf(file, readFileSync(file, "utf8"));

/** Every text in a piece of TypeScript. Names of modules are none. */
export function literalsOf(file: string, code: string): readonly Literal[] {
  const kind = file.endsWith("x") ? ts.ScriptKind.TSX : ts.ScriptKind.TS;
  const source = ts.createSourceFile(file, code, ts.ScriptTarget.Latest, true, kind);
  const found: Literal[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) return;
    const text = textOf(node);
    if (text !== undefined) {
      const line = source.getLineAndCharacterOfPosition(node.getStart(source)).line + 1;
      const unread = SQL.test(text) ? "a statement of SQL" : unreadIn(node);
      found.push({ file, line, text, ...(unread ? { unread } : {}) });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

const SQL = /^\s*(SELECT|INSERT INTO|INSERT OR REPLACE|UPDATE|DELETE FROM|CREATE TABLE|WITH|PRAGMA|LISTEN) /;

function textOf(node: ts.Node): string | undefined {
  // "a long text " + "in two lines" is one text
  if (ts.isBinaryExpression(node.parent ?? node) && isPiece(node.parent)) return undefined;
  if (isPiece(node)) return piecesOf(node).join("");
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (ts.isTemplateExpression(node))
    return node.head.text + node.templateSpans.map((span) => `{}${span.literal.text}`).join("");
  return ts.isJsxText(node) ? node.text.replace(/\s+/g, " ").trim() : undefined;
}

const isPiece = (node: ts.Node): node is ts.BinaryExpression =>
  ts.isBinaryExpression(node) &&
  node.operatorToken.kind === ts.SyntaxKind.PlusToken &&
  piecesOf(node).length > 0;

/** The texts of a sum of texts; none where something else is added. */
function piecesOf(node: ts.Expression): readonly string[] {
  if (ts.isStringLiteralLike(node)) return [node.text];
  if (!ts.isBinaryExpression(node) || node.operatorToken.kind !== ts.SyntaxKind.PlusToken) return [];
  const [left, right] = [piecesOf(node.left), piecesOf(node.right)];
  return left.length > 0 && right.length > 0 ? [...left, ...right] : [];
}

function unreadIn(node: ts.Node): Literal["unread"] | undefined {
  for (let at = node.parent; at; at = at.parent) {
    if (ts.isNewExpression(at) && /^(Range|Type)?Error$/.test(at.expression.getText()))
      return "an error of the program";
    if (ts.isCallExpression(at) && at.expression.kind === ts.SyntaxKind.SuperKeyword)
      return "an error of the program";
    if (ts.isCallExpression(at) && /\.(describe|meta)$/.test(at.expression.getText()))
      return "a description in the schema";
    if ((ts.isPropertyAssignment(at) || ts.isVariableDeclaration(at)) && at.name.getText() === "description")
      return "a description in the schema";
    if (ts.isVariableDeclaration(at) && at.name.getText() === "FORMAT") return "a name of a file's format";
    if (ts.isPropertyAssignment(at) && at.name.getText() === "format") return "a name of a file's format";
    if (ts.isCallExpression(at) && /\.(matches|closest|querySelector(All)?)$/.test(at.expression.getText()))
      return "a selector";
    if (ts.isJsxAttribute(at) && /^(className|style|d|viewBox)$/.test(at.name.getText()))
      return "a name of styles";
  }
  return undefined;
}

/** Whether a text reads like a sentence or part of one: three words of letters or more, with blanks between. */
export const isSentence = (text: string): boolean =>
  text.split(/\s+/).filter((word) => /^[("']?\p{L}[\p{L}'’-]*[)"'.,:;!?]*$/u.test(word)).length >= 3;
