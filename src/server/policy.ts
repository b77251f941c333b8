import { createHash } from "node:crypto";

/**
 * The two style sheets that react-aria 1.22 puts into the page itself (usePress, usePreventScroll). Allowed by what
 * they say, to the letter, so that nothing else inline is.
 */
const OWN_STYLES = [
  "@layer {\n  [data-react-aria-pressable] {\n    touch-action: pan-x pan-y pinch-zoom;\n  }\n}",
  "@layer {\n  * {\n    overscroll-behavior: contain;\n  }\n}",
];

const hash = (text: string): string => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/**
 * Everything comes from this server, and nothing goes anywhere else. Blobs: printed cards and pictures that the page
 * made itself. Scripts and workers: files alone.
 */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'self'",
  "script-src 'self'",
  "worker-src 'self'",
  `style-src 'self' ${OWN_STYLES.map(hash).join(" ")}`,
  "img-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "frame-src 'self' blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

export const HEADERS: Readonly<Record<string, string>> = {
  "Content-Security-Policy": CONTENT_SECURITY_POLICY,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
};
