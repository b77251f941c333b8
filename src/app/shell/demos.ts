import carUrl from "../../../demo/sandling.json?url";
import halfBuiltUrl from "../../../demo/sandling-half-built.json?url";
import { fetched } from "../kit/index.ts";

/** The jobs that come with the app, by their files in `demo`: the car laid out, and the same car half built. */
const URLS = { "sandling.json": carUrl, "sandling-half-built.json": halfBuiltUrl } as const;

export type Demo = keyof typeof URLS;
export const DEMOS = Object.keys(URLS) as readonly Demo[];

export const isDemo = (file: string): boolean => Object.hasOwn(URLS, file);

/** The text of a demo, from the server or what the device keeps of the app. Throws where neither has it. */
export const demoText = async (demo: Demo): Promise<string> => (await fetched(URLS[demo])).text();
