import type { Drawn } from "./read-svg.ts";

/** Entities of a DXF by its group codes alone: (code, value) pairs, one entity a 0. */
export function readDxf(dxf: string): Drawn {
  const lines = dxf.split(/\r?\n/);
  const pairs: [number, string][] = [];
  for (let i = 0; i + 1 < lines.length; i += 2) pairs.push([Number(lines[i]), lines[i + 1]!]);
  const header = (name: string, code: number): number => {
    const i = pairs.findIndex(([c, v]) => c === 9 && v === name);
    for (let k = i + 1; i >= 0 && pairs[k] && pairs[k]![0] !== 9; k++)
      if (pairs[k]![0] === code) return Number(pairs[k]![1]);
    throw new Error(`the DXF has no ${name}`);
  };
  if (header("$INSUNITS", 70) !== 4) throw new Error("the DXF's unit is not the millimetre");
  const height = header("$EXTMAX", 20);
  const start = pairs.findIndex(
    ([c, v], i) => c === 2 && v === "ENTITIES" && pairs[i - 1]?.[1] === "SECTION",
  );
  const entities: { kind: string; pairs: [number, string][] }[] = [];
  for (const pair of pairs.slice(start + 1)) {
    if (pair[0] === 0) {
      if (pair[1] === "ENDSEC") break;
      entities.push({ kind: pair[1], pairs: [] });
    } else entities[entities.length - 1]!.pairs.push(pair);
  }
  const of = (e: (typeof entities)[0], code: number): string[] =>
    e.pairs.filter(([c]) => c === code).map(([, v]) => v);
  // y grows upward in a DXF, from the foot of the wrap
  const points = (e: (typeof entities)[0], cx: number, cy: number): [number, number][] =>
    of(e, cx).map((x, i) => [Number(x), height - Number(of(e, cy)[i])]);
  const paths = entities.flatMap((e) => {
    const layer = of(e, 8)[0]!.toLowerCase();
    if (e.kind === "LWPOLYLINE") {
      const list = points(e, 10, 20);
      const closed = (Number(of(e, 70)[0] ?? 0) & 1) === 1;
      return [{ kind: layer, points: closed ? [...list, list[0]!] : list }];
    }
    if (e.kind === "LINE") return [{ kind: layer, points: [...points(e, 10, 20), ...points(e, 11, 21)] }];
    return [];
  });
  return {
    width: header("$EXTMAX", 10),
    height,
    cut: paths.filter((p) => p.kind === "cut").map((p) => p.points),
    lines: paths.filter((p) => p.kind !== "cut"),
    texts: entities
      .filter((e) => e.kind === "TEXT" || e.kind === "MTEXT")
      .map((e) => ({
        text: unescaped(of(e, 1)[0]!).replaceAll("\u00a0", " "),
        x: points(e, 10, 20)[0]![0],
        y: points(e, 10, 20)[0]![1],
      })),
    title: "",
  };
}

/** DXF writes signs of its own: %%d degree, %%c diameter, %%p plus-minus, \U+XXXX. */
const unescaped = (s: string): string =>
  s
    .replace(/\\U\+([0-9A-Fa-f]{4})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)))
    .replaceAll("%%d", "°")
    .replaceAll("%%c", "Ø")
    .replaceAll("%%p", "±");
