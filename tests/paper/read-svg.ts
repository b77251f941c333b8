/** A wrap as a drawing at true size holds it: mm, y downward from the top edge. */
export interface Drawn {
  width: number;
  height: number;
  /** The line to cut along, in its pieces. */
  cut: [number, number][][];
  /** Other straight lines, by their ends. */
  lines: { kind: string; points: [number, number][] }[];
  texts: { text: string; x: number; y: number }[];
  title: string;
}

const plain = (s: string): string =>
  s.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&quot;", '"').replaceAll("&amp;", "&");

export function readSvg(svg: string): Drawn {
  const [, width, height, w, h] =
    /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!;
  if (width !== w || height !== h) throw new Error("the SVG's unit is not the millimetre");
  const paths = [...svg.matchAll(/<path d="M([^"A]+?)(Z?)" class="([^"]*)"/g)].map(([, d, closed, kind]) => {
    const points = d!.split("L").map((p) => p.split(" ").map(Number) as [number, number]);
    return { kind: kind!, points: closed ? [...points, points[0]!] : points };
  });
  return {
    width: Number(width),
    height: Number(height),
    cut: paths.filter((p) => p.kind === "cut").map((p) => p.points),
    lines: paths.filter((p) => p.kind !== "cut"),
    texts: [...svg.matchAll(/<text [^>]*?x="([-\d.]+)" y="([-\d.]+)"[^>]*>([^<]*)<\/text>/g)].map((m) => ({
      text: plain(m[3]!).replaceAll("\u00a0", " "),
      x: Number(m[1]),
      y: Number(m[2]),
    })),
    title: plain(/<title>([^<]*)<\/title>/.exec(svg)?.[1] ?? ""),
  };
}
