import { expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { run } from "../programs.ts";
import { atDemo, button, handedOut } from "./hands.ts";
import { looked } from "./looked.ts";

it("marked bars: the pages are counted and shown, one opens large, and the PDF has as many", async () => {
  const page = await atDemo({ locale: "en-GB" });
  await page.evaluate(() => {
    const { tubewright } = window as unknown as { tubewright: App };
    tubewright.do.mark(["main-hoop", "harness-bar"], true);
    location.hash = "#print";
  });
  const count = page.getByRole("heading", { name: /^\d+ pages$/ });
  const pages = async (): Promise<number> => {
    await count.waitFor({ timeout: 60_000 });
    return Number.parseInt((await count.textContent()) ?? "", 10);
  };
  const marked = await pages();
  const all = page.getByRole("list", { name: "Pages" }).getByRole("listitem");
  expect(await all.count()).toBe(marked);
  expect(await page.getByRole("radio", { name: "2 marked bars" }).isChecked()).toBe(true);
  await page.getByText(/true size counts on \d+ pages/).waitFor();

  // a sheet less is pages less; a bar without the sheet is named and the rest stays
  await page.getByRole("checkbox", { name: "Notcher card", exact: true }).uncheck();
  await expect.poll(pages, { timeout: 60_000 }).toBeLessThan(marked);
  for (const box of [
    "Bender card or saw card",
    "Wraps for a hole saw or mill",
    "Wraps for a torch or grinder",
  ])
    await page.getByRole("checkbox", { name: box, exact: true }).uncheck();
  await page.getByText("Harness bar has none of the chosen sheets.").waitFor({ timeout: 60_000 });
  for (const box of ["Bender card or saw card", "Wraps for a hole saw or mill", "Notcher card", "Overview"])
    await page.getByRole("checkbox", { name: box, exact: true }).check();
  await page.getByText("Harness bar has none").waitFor({ state: "detached", timeout: 60_000 });
  const now = await pages();

  await button(page, /^Page 1 of/).click();
  const large = page.getByRole("dialog");
  await large
    .getByRole("img", { name: /^Overview/ })
    .first()
    .waitFor();
  await button(large, "Next page").click();
  await large.getByRole("heading", { name: new RegExp(`^Page 2 of ${now}`) }).waitFor();
  await button(large, "Close").click();
  expect((await looked(page, "all")).bad).toEqual([]);

  const { path } = await handedOut(page, () => button(page, "Save PDF").click());
  expect(Number(/Pages:\s+(\d+)/.exec(run("pdfinfo", path).toString())![1])).toBe(now);
  const words = run("pdftotext", "-raw", path, "-").toString().replace(/\s+/g, " ");
  expect(words).toContain(`page ${now} of ${now}`);
  expect(words.match(/Measure from corner 0/g)).toHaveLength(1);
}, 240_000);
