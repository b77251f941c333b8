/** What a PDF needs of a TrueType font: outlines, widths, the map from characters (OpenType 1.9, "Required tables"). */
const NEEDED = new Set([
  "OS/2",
  "cmap",
  "cvt ",
  "fpgm",
  "glyf",
  "head",
  "hhea",
  "hmtx",
  "loca",
  "maxp",
  "name",
  "post",
  "prep",
]);

const lean = new WeakMap<Uint8Array, Uint8Array>();

/**
 * A TrueType font without its layout tables (kerning, ligatures, positioning), which drawings do not use and whose
 * parsing costs half a second a document. Bytes in, bytes out; made once for each font handed in.
 * Layout of the file (OpenType 1.9): 12 bytes of header, then 16 a table: tag, checksum, offset, length.
 */
export function leanFont(font: Uint8Array): Uint8Array {
  const kept = lean.get(font);
  if (kept) return kept;
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength);
  const tables = Array.from({ length: view.getUint16(4) }, (_, i) => {
    const at = 12 + 16 * i;
    const tag = String.fromCharCode(...font.subarray(at, at + 4));
    return {
      tag,
      checksum: view.getUint32(at + 4),
      offset: view.getUint32(at + 8),
      length: view.getUint32(at + 12),
    };
  }).filter((t) => NEEDED.has(t.tag));
  const padded = (length: number): number => (length + 3) & ~3;
  const head = 12 + 16 * tables.length;
  const out = new Uint8Array(tables.reduce((sum, t) => sum + padded(t.length), head));
  const write = new DataView(out.buffer);
  out.set(font.subarray(0, 4));
  const power = 2 ** Math.floor(Math.log2(tables.length));
  write.setUint16(4, tables.length);
  write.setUint16(6, 16 * power);
  write.setUint16(8, Math.log2(power));
  write.setUint16(10, 16 * (tables.length - power));
  let at = head;
  tables.forEach((t, i) => {
    const entry = 12 + 16 * i;
    for (let k = 0; k < 4; k++) out[entry + k] = t.tag.charCodeAt(k);
    write.setUint32(entry + 4, t.checksum);
    write.setUint32(entry + 8, at);
    write.setUint32(entry + 12, t.length);
    out.set(font.subarray(t.offset, t.offset + t.length), at);
    at += padded(t.length);
  });
  lean.set(font, out);
  return out;
}
