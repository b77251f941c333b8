import { seeded } from "../../src/core/numeric/index.ts";

/** Some kilobytes that n alone decides and nothing makes shorter, so that a torn or foreign change is seen. */
export function bytesOf(n: number): Uint8Array {
  const random = seeded(n);
  return Uint8Array.from({ length: 500 + ((n * 997) % 6000) }, () => random() * 256);
}
