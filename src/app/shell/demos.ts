import carUrl from "../../../demo/sandling.json?url";
import halfBuiltUrl from "../../../demo/sandling-half-built.json?url";

/** The jobs that come with the app, by their files in `demo`: the car laid out, and the same car half built. */
const URLS = { "sandling.json": carUrl, "sandling-half-built.json": halfBuiltUrl } as const;

export type Demo = keyof typeof URLS;
export const DEMOS = Object.keys(URLS) as readonly Demo[];

/** How long the server is waited for (ms). */
const SERVER = 10_000;

/** The text of a demo, from the server or what the device keeps of the app. Throws where neither has it. */
export async function demoText(demo: Demo): Promise<string> {
  const answer = await fetch(URLS[demo], { signal: AbortSignal.timeout(SERVER) });
  if (!answer.ok) throw new Error(`${demo}: ${answer.status}`);
  return answer.text();
}
