import type { News } from "../../shared/index.ts";
import type { ShopStore } from "../store/index.ts";
import type { Addresses, Ports } from "./addresses.ts";
import type { Authority } from "./authority.ts";
import type { Codes } from "./codes.ts";
import type { Devices } from "./devices.ts";
import type { Random } from "./secrets.ts";

/** Something of the folder that the shop did not take in. */
export interface Notice {
  readonly at: number;
  readonly text: string;
}

/** What the answers of the gate are made of. */
export interface Parts {
  readonly store: ShopStore;
  /** Name of the shop. */
  readonly shop: string;
  /** The built app. */
  readonly appFolder: string;
  readonly now: () => number;
  readonly random: Random;
  /** Called after a list changed; `job` where it concerns one job. */
  readonly news: (of: News, job?: string) => void;
  readonly notices: () => readonly Notice[] | Promise<readonly Notice[]>;
  readonly ports: Ports;
  readonly own: Addresses;
  readonly authority: Authority;
  readonly codes: Codes;
  readonly devices: Devices;
}
