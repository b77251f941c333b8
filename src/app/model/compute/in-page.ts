import type { Engine } from "./protocol.ts";

/** The engine in the page itself, where no worker runs; its program is loaded only then. */
export async function engineInPage(): Promise<Engine> {
  const [{ sessionWith }, { fontsOnce }] = await Promise.all([import("./session.ts"), import("./fonts.ts")]);
  return sessionWith(fontsOnce());
}
