import { endOf } from "../clip.ts";
import { CAP_PER_EM } from "../lettering.ts";
import { FILLS, INK, LINES } from "../lines.ts";
import { onCircle } from "../place.ts";
import type { Arc, Circle, Fill, LineKind, Polyline, Sheet, Text } from "../types.ts";
import { walk } from "../walk.ts";
import { num } from "./number.ts";

/**
 * One sheet as SVG, its size and its user unit in millimetres. Each element has its kind of line ("visible",
 * "cut"…) or "text" as class and its look as attributes, so that a screen may restyle it with a style sheet.
 */
export function toSvg(sheet: Sheet): string {
  const out: string[] = [];
  walk(sheet, {
    polyline: (mark) => out.push(polyline(mark)),
    circle: (mark) => out.push(circle(mark)),
    arc: (mark) => out.push(`<path d="${arcPath(mark)}"${paint(mark.line)}/>`),
    text: (mark) => out.push(text(mark)),
  });
  const [width, height] = [num(sheet.width), num(sheet.height)];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}"`,
    ` role="img" font-family="'DejaVu Sans', sans-serif" stroke-linejoin="round"`,
    ` style="font-kerning:none;font-variant-ligatures:none">\n<title>${escaped(sheet.name)}</title>\n`,
    out.map((element) => `${element}\n`).join(""),
    "</svg>\n",
  ].join("");
}

function polyline(mark: Polyline): string {
  const points = mark.points.map(([x, y]) => `${num(x)} ${num(y)}`).join("L");
  return `<path d="M${points}${mark.closed ? "Z" : ""}"${paint(mark.line, mark.fill)}/>`;
}

const circle = ({ centre, radius, line, fill }: Circle): string =>
  `<circle cx="${num(centre[0])}" cy="${num(centre[1])}" r="${num(radius)}"${paint(line, fill)}/>`;

function arcPath(mark: Arc): string {
  const to = endOf(mark);
  const middle = (mark.from + to) / 2;
  const leg = (angle: number): string => {
    const [x, y] = onCircle(mark.centre, mark.radius, angle);
    return `${num(x)} ${num(y)}`;
  };
  const radii = `A${num(mark.radius)} ${num(mark.radius)} 0 0 1 `;
  // in two halves: neither is more than half a turn, where the flags would be in doubt
  return `M${leg(mark.from)}${radii}${leg(middle)}${radii}${leg(to)}`;
}

function text(mark: Text): string {
  const [x, y] = [num(mark.at[0]), num(mark.at[1])];
  const anchor = mark.anchor && mark.anchor !== "start" ? ` text-anchor="${mark.anchor}"` : "";
  const bold = mark.bold ? ` font-weight="bold"` : "";
  const turn = mark.rotate ? ` transform="rotate(${num(mark.rotate)} ${x} ${y})"` : "";
  return `<text class="text" x="${x}" y="${y}" font-size="${num(mark.size / CAP_PER_EM)}"${anchor}${bold}${turn} fill="${INK}" xml:space="preserve">${escaped(mark.text)}</text>`;
}

function paint(line?: LineKind, fill?: Fill): string {
  const filled = `fill="${fill ? FILLS[fill] : "none"}"`;
  const classes = [line, fill && `fill-${fill}`].filter(Boolean).join(" ");
  if (!line) return ` class="${classes}" ${filled}`;
  const { width, dash } = LINES[line];
  const dashes = dash.length > 0 ? ` stroke-dasharray="${dash.map(num).join(" ")}"` : "";
  return ` class="${classes}" ${filled} stroke="${INK}" stroke-width="${num(width)}"${dashes}`;
}

const escaped = (words: string): string =>
  words.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
