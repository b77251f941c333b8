import { spawn } from "node:child_process";
import type { Page } from "playwright-core";
import { expect, it, onTestFinished } from "vitest";
import type { App } from "../../src/app/model/state/state.ts";
import { launchMortal, served, temporary } from "./chromium.ts";

/** How often the browser is killed: 30 is the promise, and takes some minutes on two cores. */
const KILLS = Number(process.env.TUBEWRIGHT_KILLS ?? 6);

/** How long the page is held (ms), by nothing but its own work. */
const HELD = 2000;

type Window = typeof globalThis & { tubewright: App };

/** Keeps both cores of a small machine busy with something else; returns how to end that. */
function load(): () => void {
  const burners = [0, 1].map(() => spawn(process.execPath, ["-e", "for(;;);"]));
  const end = (): void => {
    for (const burner of burners) burner.kill("SIGKILL");
  };
  onTestFinished(end);
  return end;
}

/** Some edits close behind each other, then the page is held; every edit is told with its time as it is made. */
const editAndHold = (page: Page, from: number) =>
  page.evaluate(
    ([first, held]) => {
      const { tubewright } = window as unknown as Window;
      let s = first!;
      const edit = () => {
        s += 0.25;
        tubewright.do.run({
          name: "edit",
          edit(document) {
            const copy = JSON.parse(JSON.stringify(document));
            copy.bars["harness-bar"].path[0].along = s;
            return { ok: true, document: copy };
          },
        });
        console.log(`edit ${s} ${Date.now()}`);
      };
      const timer = setInterval(() => {
        edit();
        if (s < first! + 5) return;
        clearInterval(timer);
        const until = performance.now() + held!;
        while (performance.now() < until);
      }, 16);
    },
    [from, HELD] as const,
  );

const alongIn = (page: Page) =>
  page.evaluate(() => {
    const { job } = (window as unknown as Window).tubewright.state.getState();
    const document = JSON.parse(JSON.stringify(job!.document));
    return document.bars["harness-bar"].path[0].along as number;
  });

it(
  `killed ${KILLS} times under load, the page held after the edit: nothing older than a second is missing`,
  async () => {
    const server = await served();
    const profile = await temporary();
    /** The last edit of the round before that was a second old when the browser was killed. */
    let wanted: number | undefined;
    for (let round = 0; round <= KILLS; round++) {
      const browser = await launchMortal(profile);
      const page = await browser.context.newPage();
      // without the picture, which takes most of the time and keeps nothing
      await page.goto(`${server.url}#jobs`);
      await page.waitForFunction(() => (window as Partial<Window>).tubewright?.state.getState().job);
      const found = await alongIn(page);
      if (wanted !== undefined) expect(found, `after kill ${round}`).toBeGreaterThanOrEqual(wanted);
      if (round === KILLS) return;
      const edits: [s: number, at: number][] = [];
      page.on("console", (message) => {
        const [, s, at] = /^edit (\S+) (\S+)$/.exec(message.text()) ?? [];
        if (s !== undefined) edits.push([Number(s), Number(at)]);
      });
      const first = 600 + 10 * round;
      const relieve = load();
      await editAndHold(page, first);
      await expect.poll(() => edits.length, { timeout: 20_000, interval: 5 }).toBe(20);
      const [last, at] = edits.at(-1)!;
      expect(last).toBe(first + 5);
      // spread over the time for which the page is still held
      const age = 1000 + ((round * 317) % (HELD - 1200));
      await new Promise((resolve) => setTimeout(resolve, Math.max(0, at + age - Date.now())));
      const killed = Date.now();
      await browser.kill();
      relieve();
      wanted = edits.filter(([, made]) => made <= killed - 1000).at(-1)![0];
      expect(wanted).toBe(last);
      expect(killed).toBeLessThan(at + HELD);
    }
  },
  60_000 + KILLS * 60_000,
);
