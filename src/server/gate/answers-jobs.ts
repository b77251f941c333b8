import { Hono } from "hono";
import { SHOP } from "../../words/index.ts";
import { type Records, revise, shelf } from "../store/index.ts";
import type { GateEnv } from "./env.ts";
import { atMost, countIn, fieldsOf, nameIn } from "./fields.ts";
import type { Parts } from "./parts.ts";
import { Refused } from "./refused.ts";
import { newId } from "./secrets.ts";

const MOST_CHANGES = 1000;
const MOST_OF_STATE = 60;

/** The shop's jobs, what became of each when, and its named states. */
export function jobAnswers(parts: Parts): Hono<GateEnv> {
  const { news, now, store } = parts;
  const jobs = shelf(store, "job");
  const app = new Hono<GateEnv>();
  app.get("/jobs", async (c) =>
    c.json(
      [...(await jobs.all())]
        .filter(([, job]) => !job.empty)
        .map(([id, { name, file, changed, deleted }]) => ({
          id,
          name,
          ...(file === undefined ? {} : { file }),
          changed,
          ...(deleted === undefined ? {} : { deleted }),
        })),
    ),
  );
  app.delete("/jobs/:id", async (c) => {
    const id = c.req.param("id");
    if (!(await revise(jobs, id, (was) => (was.deleted === undefined ? { ...was, deleted: now() } : was))))
      throw new Refused(404, SHOP.noJob);
    news("jobs", id);
    return c.body(null, 204);
  });
  app.post("/jobs/:id/restore", async (c) => {
    const id = c.req.param("id");
    const was = await revise(jobs, id, restored);
    if (!was) throw new Refused(404, SHOP.noJob);
    if (was.deleted === undefined) throw new Refused(409, SHOP.notDeleted);
    news("jobs", id);
    return c.body(null, 204);
  });
  app.route("/jobs/:id", ofOneJob(parts));
  return app;
}

const restored = (was: Records["job"]): Records["job"] => {
  const { deleted, ...rest } = was;
  return deleted === undefined ? was : rest;
};

function ofOneJob({ devices, news, now, random, store }: Parts): Hono<GateEnv> {
  const states = shelf(store, "state");
  const app = new Hono<GateEnv>();
  app.use(async (c, next) => {
    const job = await shelf(store, "job").get(c.req.param("id") ?? "");
    if (!job) throw new Refused(404, SHOP.noJob);
    if (job.deleted !== undefined) throw new Refused(409, SHOP.deletedJob);
    return next();
  });
  const ofJob = async (job: string) =>
    [...(await states.all())]
      .filter(([, state]) => state.job === job)
      .map(([id, { name, seq, at, by }]) => ({ id, name, seq, at, by }))
      .sort((a, b) => a.seq - b.seq || a.at - b.at);

  app.get("/history", async (c) => {
    const after = countIn("after", c.req.query("after") ?? "0", 0, Number.MAX_SAFE_INTEGER);
    const limit = countIn("limit", c.req.query("limit") ?? "200", 1, MOST_CHANGES);
    const found = await store.history(c.req.param("id") ?? "", after, limit + 1);
    const names = new Map<string, string>();
    for (const { device } of found) if (!names.has(device)) names.set(device, await devices.nameOf(device));
    const changes = found.slice(0, limit).map(({ seq, device, at, update }) => ({
      seq,
      by: names.get(device) ?? device,
      device,
      at,
      update: Buffer.from(update).toString("base64"),
    }));
    return c.json({ changes, more: found.length > limit });
  });
  app.get("/states", async (c) => c.json(await ofJob(c.req.param("id") ?? "")));
  app.post("/states", atMost(4096, "4 kB"), async (c) => {
    const job = c.req.param("id") ?? "";
    const fields = await fieldsOf(c, ["name", "seq"]);
    const name = nameIn("name", fields.name, MOST_OF_STATE);
    const seq = await seqIn(fields.seq, job);
    if ((await ofJob(job)).some((state) => state.name === name))
      throw new Refused(409, SHOP.stateTaken(name));
    const [id, state] = [newId(random), { job, name, seq, at: now(), by: c.get("device").name }];
    await states.put(id, state);
    news("states", job);
    return c.json({ id, name, seq, at: state.at, by: state.by }, 201);
  });
  app.delete("/states/:state", async (c) => {
    const job = c.req.param("id") ?? "";
    const id = c.req.param("state");
    if ((await states.get(id))?.job !== job) throw new Refused(404, SHOP.noState);
    await revise(states, id, () => undefined);
    news("states", job);
    return c.body(null, 204);
  });
  return app;

  /** The change that a state is of: the one that is given, else the job's last one. */
  async function seqIn(given: unknown, job: string): Promise<number> {
    if (given === undefined) {
      const kept = await store.read(job);
      const last = kept?.log.at(-1)?.seq ?? kept?.base?.seq;
      if (last === undefined) throw new Refused(409, SHOP.nothingYet);
      return last;
    }
    const seq = countIn("seq", given, 1, Number.MAX_SAFE_INTEGER);
    const [change] = await store.history(job, seq - 1, 1);
    if (change?.seq !== seq) throw new Refused(400, SHOP.noChange(seq));
    return seq;
  }
}
