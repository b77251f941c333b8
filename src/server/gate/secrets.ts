import { createHash, timingSafeEqual } from "node:crypto";

/** Unguessable bytes; handed in, so that a test can say what they are. */
export type Random = (bytes: number) => Uint8Array;

export const hashOf = (text: string | Uint8Array): string => createHash("sha256").update(text).digest("hex");

/** Compares two digests in a time that tells nothing of where they differ. */
export const sameHash = (a: string, b: string): boolean =>
  a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));

export const base64url = (bytes: Uint8Array): string => Buffer.from(bytes).toString("base64url");

/** An ID that no other record has. */
export const newId = (random: Random): string => Buffer.from(random(8)).toString("hex");

// Crockford's alphabet: neither I, L, O nor U, which are misread.
const ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/** 128 bits as 26 letters and digits that can be typed off a screen. */
export function typeable(bytes: Uint8Array): string {
  let value = BigInt(`0x${Buffer.from(bytes).toString("hex")}`);
  let text = "";
  for (let i = 0; i < Math.ceil((bytes.length * 8) / 5); i++) {
    text = `${ALPHABET[Number(value & 31n)] ?? ""}${text}`;
    value >>= 5n;
  }
  return text;
}

/** What was typed, as it was printed: spaces, hyphens and small letters do not matter, nor O for 0 and I or L for 1. */
export const typed = (text: string): string =>
  text.toUpperCase().replace(/[\s-]/g, "").replace(/O/g, "0").replace(/[IL]/g, "1");
