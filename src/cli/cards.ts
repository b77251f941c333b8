import type { Command } from "./call.ts";
export const cards: Command = { about: "", usage: "", run: () => 2 };
