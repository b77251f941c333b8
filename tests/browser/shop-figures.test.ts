/**
 * What the shop knows, entered: a die from two test bends with no job, its plot and ± and its card on paper; the shop's
 * scatter by ten readings; a new job that begins with my shop; a finding that leads to what it lacks.
 */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { run as program } from "../programs.ts";
import { answer, blank, button, handedOut, pick, savedJob, type } from "./hands.ts";

const dialog = (page: Page) => page.getByRole("dialog").last();

/** Types figures into keypads that come one after the other. */
async function inARow(page: Page, first: string, figures: readonly string[], last?: string): Promise<void> {
  await button(page, first).click();
  for (const figure of figures) {
    await dialog(page).getByRole("textbox").fill(figure);
    await button(dialog(page), "OK").click();
  }
  if (last !== undefined) await button(dialog(page), last).click();
}

it("no job: two test bends, the die's card; then a new job with it, scatter by ten readings, and my shop again", async () => {
  const page = await blank();
  await button(page, /^A die from test bends/).click();
  await page.getByRole("heading", { name: "A die from test bends", level: 1 }).waitFor();
  await type(page, /^die die, diameter of its tube/, "45");
  await type(page, /^die die, centreline radius/, "135");
  await answer(page, "Rename die die", "d45", "Rename");
  await inARow(page, "New test bend", ["30", "27.6"], "Legs not measured: springback only");
  await page.getByText("springback is taken in proportion", { exact: false }).waitFor();
  // 330 to the centreline's corner: 352.5 to where the outer lines meet
  await inARow(page, "New test bend", ["94", "90", "352.5", "352.5", "600"]);
  const says = page.getByRole("region", { name: "What the test bends of d45 say" });
  await says.getByText("0.975 × set − 1.65°").waitFor();
  await says.getByText(/^139\.8 mm/).waitFor();
  await says
    .getByText(/± 2\.\d mm|± [\d.]+ mm/)
    .first()
    .waitFor();
  await says.getByLabel(/^Set against measured of 2 test bends/).waitFor();
  await page.getByRole("region", { name: "What to set" }).getByText("94.0°").waitFor();

  const { path } = await handedOut(page, () => button(page, "Save Die card, d45").click());
  const card = program("pdftotext", "-layout", path, "-").toString();
  for (const figure of ["Die card — d45", "0.975 × set", "139.8 mm", "Test bend 2: set 94.0°"])
    expect(card).toContain(figure);

  // it is there after a reload, with no job opened for it
  await page.reload();
  await says.getByText("0.975 × set − 1.65°").waitFor();
  await pick(page, "Add it to a job", /^My shop/);
  await page.getByText("Die d45 is in my shop: each new job has it.").waitFor();

  await button(page, "Jobs").click();
  await answer(page, /^New job/, "With my shop", "Create the job");
  await button(page, "Shop").click();
  await inARow(page, "New hole saw", ["45"]);
  await button(page, "Measure it: tape").click();
  await inARow(page, "Enter reading 1", [
    "600.5",
    "601",
    "600",
    "600.5",
    "601.5",
    "600",
    "600.5",
    "601",
    "599.5",
    "600.5",
  ]);
  await dialog(page).getByText("± 0.58 mm, itself known to ± 0.14 mm.").waitFor();
  await button(dialog(page), "Set the error to ± 0.58 mm").click();
  await button(page, "Errors of this shop, length by tape, ±: 0.58 mm").waitFor();
  const first = JSON.parse(await savedJob(page));
  expect(first.dies.d45.tests).toHaveLength(2);
  expect(first.shop.errors.tape).toBe(0.58);

  await button(page, "Jobs").click();
  await button(page, /^My shop/).click();
  await page.getByText(/^1 die, 2 test bends, 1 hole saw and figures/).waitFor();
  await button(page, "Jobs").click();
  await answer(page, /^New job/, "Again", "Create the job");
  const again = JSON.parse(await savedJob(page));
  expect([again.dies, again.notcher, again.shop]).toEqual([first.dies, first.notcher, first.shop]);
  await button(page, "Jobs").click();
  await button(page, /^New job/).click();
  await button(dialog(page), "Nothing").click();
  await button(dialog(page), "Create the job").click();
  await dialog(page).waitFor({ state: "detached" });
  const bare = JSON.parse(await savedJob(page));
  expect([bare.dies, bare.notcher]).toEqual([undefined, undefined]);
}, 120_000);
