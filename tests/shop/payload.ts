/** Some kilobytes that n alone decides, so that a torn or foreign change is seen. */
export function bytesOf(n: number): Uint8Array {
  return Uint8Array.from({ length: 500 + ((n * 997) % 6000) }, (_, i) => (n * 31 + i * 7) & 255);
}
