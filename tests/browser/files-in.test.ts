import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { atDemo, button, savedJob } from "./hands.ts";

it("a label that the file could not hold is refused at the field, and a file in Latin-1 where it is wrong", async () => {
  const page = await atDemo();
  await button(page, /^Main hoop/).click();
  await button(page, "Rename").click();
  const dialog = page.getByRole("dialog");
  for (const [label, says] of [
    ["x".repeat(61), "at most 60 characters, not 61"],
    ["Main\u202ehoop", "U+202E"],
  ] as const) {
    await dialog.getByRole("textbox").fill(label);
    await button(dialog, "Rename").click();
    await dialog.getByText(says).waitFor();
  }
  await dialog.getByRole("textbox").fill("x".repeat(60));
  await button(dialog, "Rename").click();
  await dialog.waitFor({ state: "detached" });
  expect(JSON.parse(await savedJob(page)).bars["main-hoop"].label).toBe("x".repeat(60));

  const text = readFileSync("tests/corpus/trial-frame.json", "utf8").replace("Main hoop", "B\u00fcgel");
  await button(page, "Jobs").click();
  await page.locator("input[type=file]").setInputFiles({
    name: "latin.json",
    mimeType: "application/json",
    buffer: Buffer.from(text, "latin1"),
  });
  await page.getByText(/line \d+, column \d+: byte 0xFC is no UTF-8/).waitFor();
}, 120_000);
