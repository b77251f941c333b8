import { mkdir, mkdtemp, symlink, unlink, writeFile } from "node:fs/promises";
import { createServer, type IncomingMessage, request, type ServerResponse } from "node:http";
import { connect } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, it, onTestFinished, vi } from "vitest";
import { serverApp } from "./app.ts";
import { HEADERS } from "./policy.ts";
import { serveJobs } from "./serve.ts";

let root = "";
const app = () => join(root, "app");
const jobs = () => join(root, "jobs");
const text = '{ "format": "tubewright job" }\n';

beforeAll(async () => {
  root = await mkdtemp(join(tmpdir(), "tubewright-"));
  await mkdir(join(app(), "assets"), { recursive: true });
  await mkdir(join(jobs(), "inner"), { recursive: true });
  await writeFile(join(app(), "index.html"), "<!doctype html>");
  await writeFile(join(app(), "assets", "main-abc.js"), "1");
  await writeFile(join(jobs(), "cage & frame.json"), text);
  await writeFile(join(jobs(), "notes.txt"), "private");
  await writeFile(join(jobs(), "inner", "deep.json"), text);
  await writeFile(join(root, "secret.json"), "secret");
  await symlink(join(root, "secret.json"), join(jobs(), "link.json"));
});

/** A file so long that it cannot be read, and takes no room. */
async function truncate(path: string, length: number): Promise<void> {
  await writeFile(path, "");
  await (await import("node:fs/promises")).truncate(path, length);
}

const get = (path: string, init?: RequestInit, host = "127.0.0.1:8734") =>
  serverApp({ app: app(), jobs: jobs() }).request(`http://${host}${path}`, init);

describe("the server", () => {
  it("gives the app, the list of jobs, and a job's very text", async () => {
    expect(await (await get("/")).text()).toBe("<!doctype html>");
    const asset = await get("/assets/main-abc.js");
    expect(asset.headers.get("content-type")).toBe("text/javascript; charset=utf-8");
    expect(asset.headers.get("cache-control")).toContain("immutable");
    expect(await (await get("/jobs")).json()).toEqual([
      { name: "cage & frame.json", changed: expect.any(Number) },
    ]);
    expect(await (await get("/jobs/cage%20%26%20frame.json")).text()).toBe(text);
  });

  it("sends the same headers with everything, what it refuses included", async () => {
    await truncate(join(jobs(), "huge.json"), 5e9);
    const gone = serverApp({ app: app(), jobs: join(root, "gone") });
    const answers = await Promise.all([
      ...["/", "/jobs", "/assets/main-abc.js", "/nowhere", "/jobs/nowhere.json"].map((path) => get(path)),
      get("/jobs/huge.json"),
      gone.request("http://127.0.0.1:8734/jobs"),
      get("/jobs", {}, "evil.example:8734"),
      ...["POST", "PUT", "DELETE", "OPTIONS"].map((method) => get("/jobs/x.json", { method })),
    ]);
    expect(answers.map((a) => a.status)).toEqual([
      200, 200, 200, 404, 404, 500, 500, 403, 405, 405, 405, 405,
    ]);
    for (const { headers } of answers) {
      for (const [name, value] of Object.entries(HEADERS)) expect(headers.get(name)).toBe(value);
      expect(headers.get("content-security-policy")).not.toMatch(/unsafe|\*|https?:/);
    }
    await unlink(join(jobs(), "huge.json"));
  });

  it("refuses with them what never reaches the app: no HTTP at all, a host name that is none", async () => {
    const served = await serveJobs({ folder: jobs(), app: app(), port: 0 });
    onTestFinished(() => served.close());
    const port = Number(new URL(served.url).port);
    for (const asked of ["nonsense\r\n\r\n", "GET / HTTP/1.1\r\nHost: a b\r\nConnection: close\r\n\r\n"]) {
      const answer = await new Promise<string>((resolve, reject) => {
        let said = "";
        const socket = connect(port, "127.0.0.1", () => socket.write(asked));
        socket.on("data", (bytes: Buffer) => {
          said += bytes.toString();
        });
        socket.once("end", () => resolve(said)).once("error", reject);
      });
      expect(answer).toMatch(/^HTTP\/1\.1 400 /);
      for (const [name, value] of Object.entries(HEADERS))
        expect(answer.toLowerCase()).toContain(`${name}: ${value}`.toLowerCase());
    }
  });

  it("says in a sentence that a file cannot be read, and nothing on the terminal", async () => {
    const said = vi.spyOn(console, "error").mockImplementation(() => {});
    onTestFinished(() => said.mockRestore());
    await truncate(join(jobs(), "huge.json"), 5e9);
    const answer = await get("/jobs/huge.json");
    await unlink(join(jobs(), "huge.json"));
    expect([answer.status, await answer.text()]).toEqual([500, "that cannot be read: it is too large\n"]);
    const gone = await serverApp({ app: app(), jobs: join(root, "gone") }).request("http://127.0.0.1/jobs");
    expect([gone.status, await gone.text()]).toEqual([500, "that cannot be read: it is no longer there\n"]);
    expect(said).not.toHaveBeenCalled();
  });

  it.each([
    "/jobs/..%2fsecret.json",
    "/jobs/%2e%2e%2fsecret.json",
    "/jobs/..%5csecret.json",
    "/jobs/inner%2fdeep.json",
    "/jobs/notes.txt",
    "/jobs/link.json",
    "/jobs/inner",
    "/jobs/.json",
    "/..%2fsecret.json",
    "/assets/..%2f..%2fsecret.json",
    "/%2fetc%2fpasswd",
    "/secret.json",
  ])("shows nothing outside its folders: %s", async (path) => {
    const answer = await get(path);
    expect(answer.status).toBe(404);
    expect(await answer.text()).not.toBe("secret");
  });

  it("takes nothing in, and answers to no other name", async () => {
    for (const method of ["POST", "PUT", "DELETE"])
      expect((await get("/jobs/x.json", { method })).status).toBe(405);
    expect((await get("/jobs", {}, "evil.example:8734")).status).toBe(403);
    expect((await get("/jobs", {}, "jobs.localhost:8734")).status).toBe(403);
  });

  it.each(["localhost:8734", "localhost.:8734", "LOCALHOST:8734"])(
    "keeps to one address: %s is sent on to it, path and query with it",
    async (host) => {
      for (const path of ["/", "/?open=a%20b.json", "/jobs/x.json", "/sw.js", "/nowhere"]) {
        const answer = await get(path, { redirect: "manual" }, host);
        expect(answer.status).toBe(307);
        expect(answer.headers.get("location")).toBe(`http://127.0.0.1:8734${path}`);
      }
    },
  );

  it("is reached on this machine alone", async () => {
    const one = await serveJobs({ folder: jobs(), app: app(), port: 0, open: "cage & frame.json" });
    onTestFinished(() => one.close());
    const url = new URL(one.url);
    const port = Number(url.port);
    expect(url.searchParams.get("open")).toBe("cage & frame.json");
    expect(await (await fetch(new URL("/jobs/cage%20%26%20frame.json", url))).text()).toBe(text);
    const others = Object.values(networkInterfaces())
      .flat()
      .filter((a) => a && !a.internal && a.family === "IPv4");
    for (const other of others) {
      const reached = await new Promise((resolve) => {
        const socket = connect(port, other!.address);
        socket.once("connect", () => resolve(true)).once("error", () => resolve(false));
        socket.setTimeout(2000, () => resolve(false));
      });
      expect(reached).toBe(false);
    }
  });

  it("at a port where it serves this folder already gives that address", async () => {
    const one = await serveJobs({ folder: jobs(), app: app(), port: 0 });
    onTestFinished(() => one.close());
    const port = Number(new URL(one.url).port);
    // by another way to the same folder
    await symlink(jobs(), join(root, "by-link")).catch(() => {});
    for (const folder of [jobs(), `${jobs()}/inner/..`, join(root, "by-link")]) {
      const two = await serveJobs({ folder, app: app(), port, open: "cage & frame.json" });
      expect(two).toMatchObject({ url: `${one.url}?open=cage%20%26%20frame.json`, already: true });
      await two.close();
    }
    expect((await fetch(one.url)).status).toBe(200);
    await expect(serveJobs({ folder: root, app: app(), port })).rejects.toThrow(
      `name a free port with --port and keep to it: Tubewright serves another folder at port ${port}`,
    );
  });

  it.each([
    ["answers something else", (_: IncomingMessage, answer: ServerResponse) => void answer.end("hello")],
    [
      "answers with what is not an object",
      (_: IncomingMessage, answer: ServerResponse) => void answer.end("null"),
    ],
    [
      "sends one elsewhere",
      (_: IncomingMessage, answer: ServerResponse) =>
        void answer.writeHead(302, { location: "http://127.0.0.1:1/" }).end(),
    ],
    ["never answers", () => {}],
  ])("never moves to another port: held by a program that %s", async (_, answer) => {
    const other = createServer(answer).listen(0, "127.0.0.1");
    onTestFinished(() => other.closeAllConnections());
    onTestFinished(() => void other.close());
    await new Promise((resolve) => other.once("listening", resolve));
    const { port } = other.address() as { port: number };
    await expect(serveJobs({ folder: jobs(), app: app(), port })).rejects.toThrow(
      `name a free port with --port and keep to it: another program holds port ${port}`,
    );
  });

  it("does not walk along with a path that was written as it stands", async () => {
    const served = await serveJobs({ folder: jobs(), app: app(), port: 0 });
    onTestFinished(() => served.close());
    // a browser or fetch would tidy the path up before sending it
    const status = await new Promise((resolve, reject) => {
      const { port } = new URL(served.url);
      request({ host: "127.0.0.1", port, path: "/jobs/../../secret.json" }, (answer) => {
        answer.resume();
        resolve(answer.statusCode);
      })
        .once("error", reject)
        .end();
    });
    expect(status).toBe(404);
  });

  it("says what is missing", async () => {
    await expect(serveJobs({ folder: jobs(), app: jobs() })).rejects.toThrow("run npm run build:app");
    await expect(serveJobs({ folder: jobs(), app: app(), open: "no.json" })).rejects.toThrow(
      'no job file "no.json"',
    );
  });
});
