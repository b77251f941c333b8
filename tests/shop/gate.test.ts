import { connect } from "node:net";
import { describe, expect, it } from "vitest";
import { HEADERS } from "../../src/server/policy.ts";
import { MemoryStore } from "./memory-store.ts";
import { LAN, type Served, served } from "./served.ts";

/** A code for another device, made by the shop PC: for the secure address and for the plain one. */
async function invited(shop: Served, rights = "all", cookie?: string) {
  const made = await shop.send("POST", "/shop/codes", { rights }, { cookie: cookie ?? (await shop.first()) });
  const plain = made.json.ways.find((way: { secure: boolean }) => !way.secure).url as string;
  return {
    code: made.json.code as string,
    plain: new URL(plain).searchParams.get("code") ?? "",
    made: made.json,
  };
}

const onLan = (shop: Served, secure = false) => ({
  secure,
  host: `${LAN}:${secure ? shop.ports.https : shop.ports.http}`,
});

describe("without a credential", () => {
  it("answers the page to join, its styles and the authority alone", async () => {
    const shop = await served();
    for (const path of ["/join", "/join.css", "/authority.crt"])
      expect((await shop.ask(path)).status).toBe(200);
    for (const path of [
      "/shop",
      "/shop/devices",
      "/shop/jobs",
      "/shop/jobs/x/history",
      "/shop/notices",
      "/shop/nothing",
      "/",
      "/index.html",
      "/assets/main-abc.js",
      "/sw.js",
      `/shop/photographs/${"0".repeat(64)}`,
    ]) {
      const answer = await shop.ask(path);
      expect([path, answer.status]).toEqual([path, 401]);
      expect(answer.json.error).toMatch(/^Join the shop first/);
    }
    for (const [method, path] of [
      ["POST", "/shop/codes"],
      ["DELETE", "/shop/devices/x"],
    ] as const)
      expect((await shop.send(method, path, {})).status).toBe(401);
  });

  it("leads a person who waits for a page to the page to join, and a program never", async () => {
    const shop = await served();
    const page = await shop.ask("/", { headers: { Accept: "text/html,*/*" } });
    expect([page.status, page.headers.location]).toEqual([303, "/join"]);
    const navigated = await shop.ask("/", { headers: { "Sec-Fetch-Mode": "navigate" } });
    expect(navigated.status).toBe(303);
    const worker = { Accept: "text/html", "Sec-Fetch-Mode": "cors" };
    expect((await shop.ask("/index.html", { headers: worker })).status).toBe(401);
  });

  it("sends the headers of the policy with everything, and neither HSTS nor CORS", async () => {
    const shop = await served();
    const cookie = await shop.first();
    const answers = await Promise.all([
      shop.ask("/join"),
      shop.ask("/shop"),
      shop.ask("/", { cookie }),
      shop.ask("/nowhere", { cookie }),
      shop.ask("/shop", { secure: true }),
      shop.ask("/", { host: "evil.example" }),
      shop.send("POST", "/shop/codes", {}, { headers: { Origin: "http://evil.example" } }),
      shop.ask("/shop/devices", { method: "OPTIONS", headers: { Origin: "http://evil.example" } }),
    ]);
    for (const [i, { headers }] of answers.entries()) {
      for (const [name, value] of Object.entries(HEADERS)) {
        if (i === 0 && /^(Content-Security-Policy|Referrer-Policy)$/.test(name)) continue;
        expect(headers[name.toLowerCase()]).toBe(value);
      }
      expect(headers["strict-transport-security"]).toBeUndefined();
      expect(Object.keys(headers).filter((name) => name.startsWith("access-control"))).toEqual([]);
    }
    const policy = answers[0]?.headers["content-security-policy"];
    expect(policy).toContain("form-action 'self'");
    expect(policy).toContain("script-src 'self'");
  });
});

const LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
/** The next letter of base64: it differs in the lowest bit alone. */
const nextLetter = (letter = "A"): string => LETTERS[LETTERS.indexOf(letter) ^ 1] ?? "";

describe("cookies", () => {
  it("has its flags: __Host- and Secure over https, another name over http", async () => {
    const shop = await served();
    const plain = (await shop.join((await shop.gate.firstCode()).code)).headers["set-cookie"]?.[0];
    expect(plain).toMatch(/^tubewright=[^;]+; Max-Age=34560000; Path=\/; HttpOnly; SameSite=Strict$/);
    const { code } = await invited(shop);
    const tls = await shop.join(code, "phone", onLan(shop, true));
    expect(tls.headers["set-cookie"]?.[0]).toMatch(
      /^__Host-tubewright=[^;]+; Max-Age=34560000; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
    );
    const me = await shop.ask("/shop", { ...onLan(shop, true), cookie: tls.cookie });
    expect(me.json.me).toMatchObject({ name: "phone", rights: "all" });
    expect(me.json.secure).toBe(true);
  });

  it("a tampered one is none, in whatever place", async () => {
    const shop = await served();
    const cookie = await shop.first();
    expect((await shop.ask("/shop", { cookie })).status).toBe(200);
    const start = cookie.indexOf("=") + 1;
    const value = decodeURIComponent(cookie.slice(start));
    for (let i = 0; i < value.length; i++) {
      // the last letter of the signature has two bits that base64 leaves unused
      const other = i === value.length - 2 ? nextLetter(value[i]) : value[i] === "A" ? "B" : "A";
      const tampered = encodeURIComponent(value.slice(0, i) + other + value.slice(i + 1));
      const { status } = await shop.ask("/shop", { cookie: `tubewright=${tampered}` });
      expect([i, status]).toEqual([i, 401]);
    }
    for (const none of ["tubewright=", "tubewright=.", "tubewright=a.b.c", "tubewright=%", `x${cookie}`])
      expect((await shop.ask("/shop", { cookie: none })).status).toBe(401);
  });

  it("one read off the plain network is none over TLS", async () => {
    const shop = await served();
    const { plain } = await invited(shop);
    const { cookie } = await shop.join(plain, "phone", onLan(shop));
    expect((await shop.ask("/shop", { ...onLan(shop), cookie })).status).toBe(200);
    for (const moved of [cookie, cookie.replace("tubewright=", "__Host-tubewright=")])
      expect((await shop.ask("/shop", { ...onLan(shop, true), cookie: moved })).status).toBe(401);
  });

  it("keeps no secret in the clear", async () => {
    const shop = await served();
    const { code } = await invited(shop);
    const { cookie } = await shop.join(code, "phone", onLan(shop, true));
    const secret = decodeURIComponent(cookie).split(".")[2] ?? "";
    expect(secret.length).toBeGreaterThan(40);
    const kept = JSON.stringify([...shop.store.records].map(([kind, all]) => [kind, ...all]));
    expect(kept).not.toContain(secret);
    expect(kept).not.toContain(code);
  });
});

describe("who asks from elsewhere", () => {
  it("another Host is refused, whatever the port, the scheme or the credential", async () => {
    const shop = await served();
    const cookie = await shop.first();
    const { http, https } = shop.ports;
    for (const host of [
      "evil.example",
      `evil.example:${http}`,
      `127.0.0.1:${http + 1}`,
      "127.0.0.1",
      `127.0.0.2:${http}`,
      `192.168.7.21:${http}`,
      `127.0.0.1.evil.example:${http}`,
      `127.0.0.1:${https}`,
      `[::1]:${http}`,
      `a@127.0.0.1:${http}`,
      `shop-pc.evil:${http}`,
      `0x7f.1:${http}`,
      `127.1:${http}`,
    ]) {
      const answer = await shop.ask("/shop", { host, cookie });
      expect([host, answer.status < 500 && answer.status >= 400]).toEqual([host, true]);
      expect(answer.text).not.toContain("Weld");
      expect(shop.gate.isOwn(host)).toBe(host === `127.0.0.1:${https}`);
    }
    for (const host of [`${LAN}:${http}`, `shop-pc.local:${http}`, `SHOP-PC:${http}`])
      expect((await shop.ask("/join", { host })).status).toBe(200);
  });

  it("localhost is sent on to the one address", async () => {
    const shop = await served();
    const answer = await shop.ask("/join?code=1", { host: `localhost:${shop.ports.http}` });
    expect([answer.status, answer.headers.location]).toEqual([
      307,
      `http://127.0.0.1:${shop.ports.http}/join?code=1`,
    ]);
  });

  it("a page of another origin changes nothing: JSON, form, text, none", async () => {
    const shop = await served();
    const cookie = await shop.first();
    const own = `http://127.0.0.1:${shop.ports.http}`;
    const change = (headers: Record<string, string>) =>
      shop.ask("/shop/codes", { method: "POST", cookie, body: '{"rights":"all"}', headers });
    const json = "application/json";
    for (const origin of [
      "http://evil.example",
      "null",
      `https://127.0.0.1:${shop.ports.http}`,
      `${own}0`,
      `${own}/`,
      "http://127.0.0.1",
      `http://localhost:${shop.ports.http}`,
      `https://127.0.0.1:${shop.ports.https}`,
    ]) {
      expect([origin, (await change({ Origin: origin, "Content-Type": json })).status]).toEqual([
        origin,
        403,
      ]);
      // reading is refused as well where a browser names the asking page
      expect((await shop.ask("/shop", { cookie, headers: { Origin: origin } })).status).toBe(403);
    }
    expect((await change({ "Content-Type": json })).status).toBe(403);
    for (const type of ["application/x-www-form-urlencoded", "text/plain", "multipart/form-data; boundary=x"])
      expect((await change({ Origin: own, "Content-Type": type })).status).toBe(415);
    expect((await change({ Origin: own })).status).toBe(415);
    expect((await change({ Origin: own, "Content-Type": "application/json; charset=utf-8" })).status).toBe(
      200,
    );
    const { code } = await shop.gate.firstCode();
    const foreign = await shop.join(code, "thief", { headers: { Origin: "http://evil.example" } });
    expect([foreign.status, foreign.cookie]).toEqual([403, ""]);
    expect((await shop.join(code)).status).toBe(303);
  });

  it("no path leads out of the app's folder", async () => {
    const shop = await served();
    const cookie = await shop.first();
    for (const path of [
      "/../secret.txt",
      "/..%2fsecret.txt",
      "/assets/../../secret.txt",
      "/%2e%2e/secret.txt",
      "/assets%2f..%2f..%2fsecret.txt",
      "/..%5csecret.txt",
      "//secret.txt",
      "/link.txt",
      "/assets",
      "/%00",
      "/index.html%00.js",
      "/%ff",
      "/%",
    ]) {
      const answer = await shop.ask(path, { cookie });
      expect([path, answer.status]).toEqual([path, 404]);
      expect(answer.text).not.toContain("secret\n");
    }
    // as it is, before any client tidies the path
    const raw = await new Promise<string>((resolve, reject) => {
      let text = "";
      const socket = connect(shop.ports.http, "127.0.0.1", () =>
        socket.write(
          `GET /../../secret.txt HTTP/1.1\r\nHost: 127.0.0.1:${shop.ports.http}\r\nCookie: ${cookie}\r\nConnection: close\r\n\r\n`,
        ),
      );
      socket.on("data", (bytes: Buffer) => {
        text += bytes.toString();
      });
      socket.on("end", () => resolve(text));
      socket.on("error", reject);
    });
    expect(raw).toMatch(/^HTTP\/1.1 404/);
  });
});

describe("codes", () => {
  it("of two who bring one code at once, exactly one comes in", async () => {
    const shop = await served();
    const { code } = await invited(shop);
    const all = await Promise.all(
      Array.from({ length: 8 }, (_, i) => shop.join(code, `phone ${i}`, onLan(shop, true))),
    );
    expect(all.map((a) => a.status).sort()).toEqual([303, 410, 410, 410, 410, 410, 410, 410]);
    expect(all.filter((a) => a.cookie !== "")).toHaveLength(1);
  });

  it("says of a used one and of an old one what to do, and sets no cookie", async () => {
    const shop = await served();
    const { code } = await shop.gate.firstCode();
    expect((await shop.ask(`/join?code=${code}`)).text).toContain(`value="${code}"`);
    expect((await shop.join(code)).status).toBe(303);
    const again = await shop.join(code);
    expect([again.status, again.cookie]).toEqual([410, ""]);
    expect(again.text).toContain("this one was used already");
    const late = (await shop.gate.firstCode()).code;
    shop.clock.now += 10 * 60 * 1000;
    const old = await shop.join(late);
    expect([old.status, old.cookie]).toEqual([410, ""]);
    expect(old.text).toContain("over ten minutes old");
    expect((await shop.ask(`/join?code=${late}`)).status).toBe(410);
  });

  it("the first one pairs this machine alone", async () => {
    const shop = await served();
    const { code, url } = await shop.gate.firstCode();
    expect(url).toBe(`http://127.0.0.1:${shop.ports.http}/join?code=${code}`);
    for (const secure of [false, true]) {
      const elsewhere = await shop.join(code, "phone", onLan(shop, secure));
      expect([elsewhere.status, elsewhere.cookie]).toEqual([403, ""]);
    }
    const { cookie } = await shop.join(code);
    expect((await shop.ask("/shop", { cookie })).json.me.rights).toBe("all");
  });

  it("takes it as a person types it", async () => {
    const shop = await served();
    const { code } = await shop.gate.firstCode();
    const asTyped = ` ${code
      .toLowerCase()
      .replace(/0/g, "o")
      .replace(/1/g, "l")
      .replace(/(.{5})/g, "$1-")} `;
    expect((await shop.join(asTyped)).status).toBe(303);
  });

  it("wrong ones slow down, then stop; whoever mistypes once is let in", async () => {
    const shop = await served();
    const tries = async (n: number) => {
      const seen: number[] = [];
      for (let i = 0; i < n; i++) seen.push((await shop.join("WRONG", "x", onLan(shop))).status);
      return seen;
    };
    const pc = await shop.first();
    const { plain } = await invited(shop, "all", pc);
    expect(await tries(1)).toEqual([403]);
    expect((await shop.join(plain, "phone", onLan(shop))).status).toBe(303);
    // the third one sets a wait; what is brought meanwhile is not looked at, the right code neither
    expect(await tries(4)).toEqual([403, 403, 429, 429]);
    const { plain: next } = await invited(shop, "all", pc);
    const early = await shop.join(next, "phone", onLan(shop));
    expect([early.status, early.headers["retry-after"]]).toEqual([429, "1"]);
    shop.clock.now += 1000;
    expect((await shop.join(next, "phone", onLan(shop))).status).toBe(303);
    let counted = 3;
    for (let i = 0; i < 400; i++) {
      shop.clock.now += 1000;
      if ((await shop.join("WRONG", "x", onLan(shop))).status === 403) counted += 1;
    }
    expect(counted).toBe(10);
    const stopped = await shop.join("WRONG", "x", onLan(shop));
    expect(Number(stopped.headers["retry-after"])).toBeGreaterThan(60);
    expect(stopped.text).toContain("then try again: too many codes were wrong");
    // a page that only looks at a code counts as well
    expect((await shop.ask("/join?code=WRONG", onLan(shop))).status).toBe(429);
    shop.clock.now += 15 * 60 * 1000;
    expect(await tries(1)).toEqual([403]);
  });

  it("a thousand wrong ones at once are counted too", async () => {
    const shop = await served();
    const all = await Promise.all(Array.from({ length: 200 }, () => shop.join("WRONG", "x", onLan(shop))));
    expect(all.filter((a) => a.status === 403).length).toBe(3);
  });
});

describe("devices", () => {
  it("are listed, renamed and put out at once, in the answers and for an open connection", async () => {
    const shop = await served();
    const pc = await shop.first();
    const { code } = await invited(shop, "all", pc);
    const phone = await shop.join(code, "phone", onLan(shop, true));
    const asPhone = { ...onLan(shop, true), cookie: phone.cookie };
    const list = (await shop.ask("/shop/devices", { cookie: pc })).json;
    expect(list).toEqual([
      { id: expect.any(String), name: "shop PC", rights: "all", made: shop.clock.now, seen: shop.clock.now },
      { id: expect.any(String), name: "phone", rights: "all", made: shop.clock.now, seen: shop.clock.now },
    ]);
    const { id } = list[1];
    expect(await shop.gate.deviceOf({ cookie: phone.cookie }, { secure: true, loopback: false })).toEqual({
      id,
      name: "phone",
      rights: "all",
    });
    expect(
      (await shop.send("PATCH", `/shop/devices/${id}`, { name: " phone \n car " }, { cookie: pc })).status,
    ).toBe(204);
    expect((await shop.ask("/shop", asPhone)).json.me.name).toBe("phone car");

    const out: string[] = [];
    shop.gate.onOut((device) => out.push(device));
    const gone = await shop.send("DELETE", `/shop/devices/${id}`, undefined, { cookie: pc });
    expect([gone.status, out]).toEqual([204, [id]]);
    const after = await shop.ask("/shop", asPhone);
    expect([after.status, after.headers["content-type"]]).toEqual([401, "application/json"]);
    expect(
      await shop.gate.deviceOf({ cookie: phone.cookie }, { secure: true, loopback: false }),
    ).toBeUndefined();
    expect((await shop.ask("/shop/devices", { cookie: pc })).json).toHaveLength(1);
    expect((await shop.send("DELETE", `/shop/devices/${id}`, undefined, { cookie: pc })).status).toBe(404);
    expect(shop.news.filter((n) => n === "devices").length).toBe(4);
  });

  it("seen is written once a minute at most", async () => {
    const shop = await served();
    const cookie = await shop.first();
    const seen = async () => (await shop.ask("/shop/devices", { cookie })).json[0].seen as number;
    const start = shop.clock.now;
    shop.clock.now += 59_000;
    expect(await seen()).toBe(start);
    shop.clock.now += 1000;
    expect(await seen()).toBe(start + 60_000);
  });

  it("two of one name are counted", async () => {
    const shop = await served();
    await shop.first();
    const cookie = await shop.first();
    const names = (await shop.ask("/shop/devices", { cookie })).json.map((d: { name: string }) => d.name);
    expect(names).toEqual(["shop PC", "shop PC 2"]);
  });

  it("a name that is none leaves the code as it is", async () => {
    const shop = await served();
    const { code } = await shop.gate.firstCode();
    for (const name of ["", "  \n", "\u200b\u202e", "x".repeat(41)]) {
      const answer = await shop.join(code, name);
      expect(answer.status).toBe(400);
      expect(answer.text).toContain("give a name of 1 to 40 characters");
    }
    const named = await shop.join(code, '<b>"x"</b>');
    expect(named.status).toBe(303);
  });

  it("reads and marks alone over plain http from elsewhere, whatever its rights; the pages say so", async () => {
    const shop = await served();
    const pc = await shop.first();
    const { plain, code, made } = await invited(shop, "all", pc);
    expect(made.ways.map((w: { url: string }) => new URL(w.url).host)).toEqual([
      `${LAN}:${shop.ports.https}`,
      `shop-pc.local:${shop.ports.https}`,
      `${LAN}:${shop.ports.http}`,
      `shop-pc.local:${shop.ports.http}`,
    ]);
    const { cookie } = await shop.join(plain, "phone", onLan(shop));
    const [, phone] = (await shop.ask("/shop/devices", { cookie: pc })).json;
    await shop.send("PATCH", `/shop/devices/${phone.id}`, { rights: "all" }, { cookie: pc });
    expect((await shop.ask("/shop", { ...onLan(shop), cookie })).json.me.rights).toBe("marks");
    const refused = await shop.send("POST", "/shop/codes", { rights: "all" }, { ...onLan(shop), cookie });
    expect([refused.status, refused.json.error]).toEqual([
      403,
      expect.stringMatching(/^Open the secure address/),
    ]);
    // the code for the secure address was typed at the plain one: it still lets nobody edit there
    const typed = await shop.join(code, "tablet", onLan(shop));
    expect((await shop.ask("/shop", { ...onLan(shop), cookie: typed.cookie })).json.me.rights).toBe("marks");
  });

  it("with rights to mark only reads over https", async () => {
    const shop = await served();
    const { code } = await invited(shop, "marks");
    const { cookie } = await shop.join(code, "phone", onLan(shop, true));
    const as = { ...onLan(shop, true), cookie };
    expect((await shop.ask("/shop/jobs", as)).status).toBe(200);
    for (const [method, path] of [
      ["POST", "/shop/codes"],
      ["PATCH", "/shop/devices/x"],
      ["DELETE", "/shop/devices/x"],
      ["DELETE", "/shop/jobs/x"],
      ["POST", "/shop/jobs/x/states"],
    ] as const) {
      const answer = await shop.send(method, path, { rights: "all" }, as);
      expect([path, answer.status, answer.json.error]).toEqual([
        path,
        403,
        expect.stringMatching(/^Use a device/),
      ]);
    }
  });

  it("rights taken away hold at the next request, and are told for open connections", async () => {
    const shop = await served();
    const pc = await shop.first();
    const { code } = await invited(shop, "all", pc);
    const { cookie } = await shop.join(code, "phone", onLan(shop, true));
    const [, { id }] = (await shop.ask("/shop/devices", { cookie: pc })).json;
    const told: unknown[] = [];
    shop.gate.onRights((...of) => told.push(of));
    await shop.send("PATCH", `/shop/devices/${id}`, { rights: "marks" }, { cookie: pc });
    expect(told).toEqual([[id, "marks"]]);
    expect((await shop.ask("/shop", { ...onLan(shop, true), cookie })).json.me.rights).toBe("marks");
  });
});

describe("several processes of one shop", () => {
  it("know the same devices; who is put out by one is put out by all", async () => {
    const [here, there] = [await served(), await served("127.0.0.1", new MemoryStore())];
    const second = await served("127.0.0.1", here.store);
    const cookie = await here.first();
    const asked = { secure: false, loopback: true };
    const device = await second.gate.deviceOf({ cookie }, asked);
    expect(device).toMatchObject({ name: "shop PC", rights: "all" });
    expect(second.gate.fingerprint()).toBe(here.gate.fingerprint());
    expect(await there.gate.deviceOf({ cookie }, asked)).toBeUndefined();
    const { id = "" } = device ?? {};
    const told: unknown[] = [];
    second.gate.onRights((...of) => told.push(of));
    second.gate.onOut((of) => told.push(of));
    await here.send("PATCH", `/shop/devices/${id}`, { rights: "marks" }, { cookie: await here.first() });
    await second.gate.changedElsewhere(id);
    await here.send("DELETE", `/shop/devices/${id}`, undefined, { cookie: await here.first() });
    await second.gate.changedElsewhere(id);
    expect(told).toEqual([[id, "marks"], id]);
    expect(await second.gate.deviceOf({ cookie }, asked)).toBeUndefined();
  });
});

describe("the app", () => {
  it("is served to a device, whose cookie lasts as long again", async () => {
    const shop = await served();
    const cookie = await shop.first();
    const page = await shop.ask("/", { cookie });
    expect(page.text).toContain("the app");
    expect(page.headers["cache-control"]).toBe("no-cache");
    expect(page.headers["set-cookie"]?.[0]).toMatch(/^tubewright=.*Max-Age=34560000/);
    const script = await shop.ask("/assets/main-abc.js", { cookie });
    expect(script.headers["cache-control"]).toBe("private, max-age=31536000, immutable");
    expect((await shop.ask("/join", { cookie })).headers.location).toBe("/");
  });

  it("another start on this machine learns who has the port, and nobody else does", async () => {
    const shop = await served();
    const who = "/.well-known/tubewright";
    expect((await shop.ask(who)).json).toEqual({
      program: "tubewright",
      folder: expect.stringMatching(/^\w{64}$/),
      shop: true,
    });
    expect((await shop.ask(who, onLan(shop))).status).toBe(401);
  });
});
