/** Bytes as text (RFC 4648), and back; throws for what is none. */
export function base64(bytes: Uint8Array): string {
  let text = "";
  // not all at once: as many arguments as a call takes
  for (let i = 0; i < bytes.length; i += 0x8000)
    text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(text);
}

export const bytesOf = (text: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
