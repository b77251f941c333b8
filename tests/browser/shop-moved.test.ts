import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { ready } from "./chromium.ts";
import { button } from "./hands.ts";
import {
  codeFrom,
  type Device,
  deviceOf,
  documentOf,
  keptWords,
  OTHER_NAME,
  openJob,
  openShop,
  pair,
  type Shop,
  toPage,
} from "./shop-hands.ts";

type Window = typeof globalThis & { tubewright: App };
interface Bars {
  readonly bars: Readonly<Record<string, { readonly label?: string }>>;
}

let shop: Shop;
let pc: Device;
let tablet: Device;
const SANDLING = /^Sandling/;

beforeAll(async () => {
  shop = await openShop({ "sandling.json": readFileSync("demo/sandling.json", "utf8") });
  pc = await deviceOf(shop, "here", { viewport: { width: 1280, height: 800 } });
  tablet = await deviceOf(shop, "https", { viewport: { width: 800, height: 1280 } });
  for (const { page } of [pc, tablet]) page.context().setDefaultTimeout(30_000);
}, 180_000);
afterAll(() => shop?.close());

const labelsOf = async ({ page }: Device): Promise<readonly (string | undefined)[]> =>
  Object.values(((await documentOf(page)) as unknown as Bars).bars).map((b) => b.label);

/** Waits until the page is kept on the device, and opens it from there. */
async function fromDevice({ page }: Device): Promise<void> {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.reload();
  await ready(page);
}

it("ten changes made while the shop's address is lost arrive from the new address", async () => {
  await pair(pc, shop.first, "Shop PC");
  await openJob(pc.page, SANDLING);
  await pair(tablet, await codeFrom(pc, "all", tablet.base), "Tablet");
  await openJob(tablet.page, SANDLING);
  await fromDevice(tablet);
  await tablet.cable.lose();
  await expect.poll(() => keptWords(tablet.page), { timeout: 20_000 }).toBe("on this device only");

  await tablet.page.evaluate(() => {
    const app = (window as unknown as Window).tubewright;
    const ids = Object.keys((app.state.getState().job!.document as unknown as Bars).bars).slice(0, 10);
    for (const [n, id] of ids.entries())
      app.do.run({
        name: `label ${n}`,
        edit: (job) => {
          const { bars } = job as unknown as Bars;
          return {
            ok: true,
            document: { ...job, bars: { ...bars, [id]: { ...bars[id], label: `Unsent ${n}` } } } as never,
          };
        },
      });
  });
  // the page opens without the shop, with all that was done
  await tablet.page.reload();
  await ready(tablet.page);
  expect((await labelsOf(tablet)).filter((l) => l?.startsWith("Unsent"))).toHaveLength(10);

  // paired again at the new address
  const moved = `https://${OTHER_NAME}:${shop.ports.https}`;
  const code = new URL(await codeFrom(pc, "all", tablet.base));
  const second = { ...tablet, page: await tablet.page.context().newPage() };
  await pair(second, `${moved}/join${code.search}`, "Tablet, moved");
  await fromDevice(second);

  await toPage(tablet.page, "jobs");
  await button(tablet.page, "The shop has another address").click();
  await tablet.page.getByLabel("New address, as the shop PC shows it").fill(`${moved}/join`);
  await button(tablet.page, "Go there").click();
  await tablet.page.waitForURL(`${moved}/**`);
  const came = tablet.page
    .getByRole("alert")
    .filter({ hasText: "came along from the shop's former address" });
  await expect.poll(() => came.textContent(), { timeout: 20_000 }).toMatch(/Sandling/);
  // nothing of it stays in the address
  expect(new URL(tablet.page.url()).hash).not.toContain("carry");
  await button(came, "Take it in").click();
  await came.waitFor({ state: "detached" });

  await toPage(pc.page, "");
  await expect
    .poll(async () => (await labelsOf(pc)).filter((l) => l?.startsWith("Unsent")).length, { timeout: 20_000 })
    .toBe(10);
  expect([...pc.faults, ...tablet.faults]).toEqual([]);
}, 180_000);

it("a device that was put out joins again by a new code, though its page is kept on it", async () => {
  const moved = `https://${OTHER_NAME}:${shop.ports.https}`;
  await toPage(pc.page, "devices");
  await button(pc.page, "Put Tablet, moved out").click();
  await button(pc.page, "Put it out").click();
  await tablet.page.getByText("this device was put out of the shop").waitFor();
  const code = new URL(await codeFrom(pc, "all", tablet.base));
  await pair(tablet, `${moved}/join${code.search}`, "Tablet, back");
  await openJob(tablet.page, SANDLING);
  await expect.poll(() => keptWords(tablet.page), { timeout: 20_000 }).toMatch(/^in the shop, at/);
  expect((await labelsOf(tablet)).filter((l) => l?.startsWith("Unsent"))).toHaveLength(10);
}, 180_000);
