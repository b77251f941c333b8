import { describe, expect, it } from "vitest";
import { KEYS_LIST } from "../../../words/index.ts";
import { KEYS, pressed } from "./keys.ts";

const event = (
  key: string,
  more: Partial<KeyboardEvent> & { readonly altGraph?: true } = {},
): KeyboardEvent =>
  ({
    key,
    code: "",
    ctrlKey: false,
    metaKey: false,
    altKey: false,
    shiftKey: false,
    getModifierState: () => more.altGraph === true,
    ...more,
  }) as KeyboardEvent;

describe("a key is read as the table writes it", () => {
  it.each([
    [event("z", { ctrlKey: true }), "Ctrl+Z"],
    [event("z", { metaKey: true }), "Ctrl+Z"],
    [event("Z", { ctrlKey: true, shiftKey: true }), "Ctrl+Shift+Z"],
    [event("y", { ctrlKey: true }), "Ctrl+Y"],
    // a Cyrillic board: the key in the place of Z
    [event("я", { ctrlKey: true, code: "KeyZ" }), "Ctrl+Z"],
    // a German board: z is where Y is on others, and / [ ? are written with Shift or AltGr
    [event("z", { ctrlKey: true, code: "KeyY" }), "Ctrl+Z"],
    [event("/", { shiftKey: true, code: "Digit7" }), "/"],
    [event("[", { ctrlKey: true, altKey: true, altGraph: true, code: "Digit8" }), "["],
    [event("?", { shiftKey: true }), "?"],
    [event("2"), "2"],
    [event("2", { altKey: true, code: "Digit2" }), "2"],
    [event("¡", { altKey: true, code: "Digit1" }), "1"],
    [event("Escape"), "Escape"],
  ])("%#: %s", (pressedKey, said) => expect(pressed(pressedKey)).toBe(said));

  it("and no key means two things; each line has its words", () => {
    const acting = KEYS.filter(({ does }) => does).flatMap(({ keys }) => keys);
    expect(new Set(acting).size).toBe(acting.length);
    expect(KEYS.map(({ id }) => id).sort()).toEqual(Object.keys(KEYS_LIST.does).sort());
  });
});
