interface ImageType {
  readonly type: string;
  readonly ending: string;
}

/** What a picture begins with (WHATWG MIME Sniffing, section 6.1; HEIC and AVIF by the brand of ISO/IEC 14496-12). */
const KINDS: readonly (readonly [begins: RegExp, ImageType])[] = [
  [/^\xff\xd8\xff/, { type: "image/jpeg", ending: "jpg" }],
  [/^\x89PNG\r\n/, { type: "image/png", ending: "png" }],
  [/^GIF8[79]a/, { type: "image/gif", ending: "gif" }],
  [/^RIFF.{4}WEBPVP/s, { type: "image/webp", ending: "webp" }],
  [/^.{4}ftypavi[fs]/s, { type: "image/avif", ending: "avif" }],
  [/^.{4}ftyp(hei[cx]|mif1)/s, { type: "image/heic", ending: "heic" }],
];

/** A picture's type by its own bytes, whatever it is called; undefined for anything else. */
export function typeOfImage(bytes: Uint8Array): ImageType | undefined {
  const start = Buffer.from(bytes.subarray(0, 16)).toString("latin1");
  return KINDS.find(([begins]) => begins.test(start))?.[1];
}
