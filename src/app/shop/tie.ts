import * as Y from "yjs";
import {
  type GaveWay,
  lineTo,
  type Share,
  type ShopInHand,
  ShopRefused,
  share,
  shopAsk,
} from "../model/shop/index.ts";
import type { App } from "../model/state/index.ts";
import type { JobStore } from "../model/storage/index.ts";
import { CARRY, type Carried, originOf, packed, unpacked, unsentOf } from "./carry.ts";
import { heldOf, holdFor, whereIs } from "./held.ts";

/** The page's tie to its shop. */
export interface Tie {
  /** Keeps the job in hand in step; returns how to leave. */
  join(doc: Y.Doc, job: string): () => void;
  /** The shop's list is there, or it does not answer. */
  readonly ready: Promise<void>;
}

const NOTHING: ShopInHand = {
  line: "connecting",
  rights: "all",
  present: [],
  gave: [],
  jobs: [],
  devices: [],
  notices: [],
  where: {},
  fetch: async () => false,
  takeCarried: async () => [],
  goToAddress: async () => false,
};

/** How long a job that comes from the shop is waited for (ms). */
const PATIENCE = 9000;
/** What gave way is shown at most. */
const MOST_SHOWN = 20;

const addressOf = (path: string): string =>
  `${location.protocol === "https:" ? "wss" : "ws"}://${location.host}${path}`;

/** Ties the app to the shop that its page came from. `last`: what was known of it when the page was last open. */
export function tieToShop(app: App, store: JobStore): Tie {
  const line = lineTo({
    connect: () => new WebSocket(addressOf("/shop/line")),
    isKnown: async () => {
      try {
        await shopAsk.self();
        return true;
      } catch (error) {
        return error instanceof ShopRefused && error.status === 401 ? false : undefined;
      }
    },
    random: Math.random,
  });
  let counted = 0;
  let mine: Share | undefined;

  const tell = (more: Partial<ShopInHand>): void =>
    app.state.setState(({ shop }) => ({ shop: { ...NOTHING, ...shop, ...more } }));

  const refresh = {
    jobs: async () => {
      const jobs = await shopAsk.jobs();
      tell({ jobs });
      const id = app.state.getState().job?.entry.id;
      if (jobs.some((j) => j.id === id && j.deleted === undefined)) mine?.rejoin();
    },
    devices: async () => tell({ devices: await shopAsk.devices() }),
    notices: async () => tell({ notices: await shopAsk.notices() }),
    // whoever looks at a history asks for it
    states: async () => {},
  };
  const renew = (what: keyof typeof refresh): Promise<void> => refresh[what]().catch(() => {});

  line.listen({
    heard(message) {
      if (message.is === "news") void renew(message.of);
    },
    changed(state) {
      const hello = line.hello();
      tell({ line: state, ...(hello ? { device: hello.name, rights: hello.rights } : {}) });
      if (state !== "up") return;
      void renew("devices");
      void renew("notices");
      void renew("jobs").then(bringIn).then(look);
    },
  });
  window.addEventListener("online", () => line.retry());
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && line.retry());
  app.state.subscribe(({ inHand, station }) => mine?.at(station, inHand ?? ""));

  async function fetchJob(id: string): Promise<boolean> {
    const doc = new Y.Doc();
    const one = share({ doc, job: id, line, isNew: false, seen: 0 });
    const came = await within(one.opened);
    one.leave();
    if (!came) return false;
    return app.do.adopt(id, doc);
  }
  let carried: readonly Carried[] = [];
  if (location.hash.startsWith(CARRY)) {
    const text = location.hash.slice(CARRY.length);
    history.replaceState(null, "", location.pathname);
    void unpacked(text).then((jobs = []) => {
      carried = jobs;
      if (jobs.length > 0) tell({ carried: jobs.map(({ id, name }) => ({ id, name })) });
    });
  }

  async function takeCarried(yes: boolean): Promise<readonly string[]> {
    const lost: string[] = [];
    for (const { id, name, update } of yes ? carried : []) {
      const doc = new Y.Doc();
      const one = share({ doc, job: id, line, isNew: true, seen: 0 });
      const came = await within(one.opened);
      if (came) Y.applyUpdate(doc, update);
      if (came) await within(untilKept(one));
      if (one.state().is !== "kept") lost.push(name);
      one.leave();
    }
    if (lost.length === 0) {
      carried = [];
      app.state.setState(({ shop }) => {
        const { carried: _carried, ...rest } = shop ?? NOTHING;
        return { shop: rest };
      });
    }
    return lost;
  }

  async function goToAddress(typed: string): Promise<boolean> {
    const origin = originOf(typed);
    if (origin === undefined) return false;
    location.href = `${origin}/${CARRY}${await packed(await unsentOf(store))}`;
    return true;
  }
  tell({ fetch: fetchJob, takeCarried, goToAddress });

  /** Where the jobs of this device are. */
  async function look(): Promise<void> {
    const { jobs } = app.state.getState();
    const all = await Promise.all(
      jobs.map(async ({ id }) => [id, whereIs(await heldOf(store, id))] as const),
    );
    tell({ where: Object.fromEntries(all) });
  }
  app.state.subscribe(({ jobs }, before) => jobs !== before.jobs && void look());

  /** Jobs of this device that the shop may not have all of, one after the other. */
  async function bringIn(): Promise<void> {
    if (line.hello()?.rights !== "all") return;
    for (const { id } of app.state.getState().jobs) {
      if (id === app.state.getState().job?.entry.id || line.state() !== "up") continue;
      const held = await heldOf(store, id);
      if (held.isKept) continue;
      const opened = await store.open(id).catch(() => undefined);
      if (opened?.is !== "open") continue;
      const { doc } = opened.job;
      const hold = holdFor(store, id);
      const gave = [...held.gave];
      const one = share({
        ...held,
        doc,
        job: id,
        line,
        isNew: held.seen === 0,
        onSeen: hold.seen,
        onGaveWay: (what) => gave.push(...what),
      });
      await within(untilKept(one));
      await Promise.all([hold.unsent(one), hold.gave(gave)]);
      one.leave();
      await opened.job.close();
    }
  }

  return {
    ready: Promise.race([
      new Promise<void>((resolve) => {
        const done = line.listen({
          changed(state) {
            if (state === "connecting") return;
            done();
            if (state === "up") void renew("jobs").then(resolve);
            else resolve();
          },
        });
      }),
      new Promise<void>((resolve) => setTimeout(resolve, 1500)),
    ]),
    join(doc, job) {
      let left = false;
      let one: Share | undefined;
      const hold = holdFor(store, job);
      const giveWay = (what: readonly GaveWay[]): void => {
        const before = app.state.getState().shop?.gave ?? [];
        const gave = [...before, ...what.map((w) => ({ ...w, id: ++counted }))].slice(-MOST_SHOWN);
        tell({ gave });
      };
      const unwatch = app.state.subscribe(({ shop }, before) => {
        if (shop && shop.gave !== before.shop?.gave) void hold.gave(shop.gave);
      });
      void heldOf(store, job).then((held) => {
        if (left) return;
        if (held.gave.length > 0) giveWay(held.gave);
        one = share({
          ...held,
          doc,
          job,
          line,
          isNew: held.seen === 0,
          onSeen: hold.seen,
          onGaveWay: giveWay,
        });
        mine = one;
        const { inHand, station } = app.state.getState();
        one.at(station, inHand ?? "");
        const show = (): void => {
          const now = (one as Share).state();
          tell({ job: now, present: (one as Share).present() });
          void hold.unsent(one as Share).then(look);
        };
        one.subscribe(show);
        show();
      });
      return () => {
        left = true;
        unwatch();
        one?.leave();
        if (mine === one) mine = undefined;
        app.state.setState(({ shop }) => {
          if (!shop) return {};
          const { job: _job, ...rest } = shop;
          return { shop: { ...rest, present: [], gave: [] } };
        });
      };
    },
  };
}

/** What it comes to, or nothing where that takes too long. */
const within = <T>(what: Promise<T>): Promise<T | undefined> =>
  Promise.race([what, new Promise<undefined>((resolve) => setTimeout(resolve, PATIENCE))]);

const untilKept = (one: Share): Promise<void> =>
  new Promise((resolve) => {
    const look = (): void => {
      const { is } = one.state();
      if (is === "kept" || is === "refused") resolve();
    };
    one.subscribe(look);
    look();
  });
