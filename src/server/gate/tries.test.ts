import { describe, expect, it } from "vitest";
import { tries } from "./tries.ts";

const MINUTE = 60_000;

/** Tries of a patient attacker: each as soon as it is looked at, from the address that `from` names. */
function patient(minutes: number, from: (n: number) => string): number {
  let now = 0;
  const tried = tries(
    () => now,
    (address) => address === "127.0.0.1",
  );
  let looked = 0;
  while (now < minutes * MINUTE) {
    const address = from(looked);
    const gap = tried.may(address);
    if (gap.is === "wait") {
      now += gap.seconds * 1000;
      continue;
    }
    tried.wrong(address);
    looked += 1;
    now += 1;
  }
  return looked;
}

describe("wrong codes", () => {
  it("from one address: ten, then a quarter of an hour of nothing", () => {
    expect(patient(15, () => "192.168.7.30")).toBe(10);
    expect(patient(60, () => "192.168.7.30")).toBeLessThan(45);
  });

  it("from ever other addresses: sixty, then nothing for all", () => {
    expect(patient(15, (n) => `10.0.${n >> 8}.${n & 255}`)).toBe(60);
  });

  it("of others do not keep the machine itself out; its own do", () => {
    const tried = tries(
      () => 0,
      (address) => address === "127.0.0.1",
    );
    for (let i = 0; i < 100; i++) tried.wrong(`10.0.0.${i}`);
    expect(tried.may("10.0.0.200").is).toBe("wait");
    expect(tried.may("127.0.0.1").is).toBe("go");
    for (let i = 0; i < 10; i++) tried.wrong("127.0.0.1");
    expect(tried.may("127.0.0.1").is).toBe("wait");
  });

  it("one or two are forgiven at once, the third after a second", () => {
    let now = 0;
    const tried = tries(
      () => now,
      () => false,
    );
    const wrong = () => {
      tried.wrong("a");
      return tried.may("a");
    };
    expect([wrong(), wrong(), wrong()]).toEqual([{ is: "go" }, { is: "go" }, { is: "wait", seconds: 1 }]);
    now = 1000;
    expect(tried.may("a")).toEqual({ is: "go" });
    expect(tried.may("b")).toEqual({ is: "go" });
  });

  it("of a thousand addresses and more are not kept in mind for ever", () => {
    const tried = tries(
      () => 0,
      () => true,
    );
    for (let i = 0; i < 10; i++) tried.wrong("first");
    for (let i = 0; i < 2000; i++) tried.wrong(String(i));
    expect(tried.may("first")).toEqual({ is: "go" });
  });
});
