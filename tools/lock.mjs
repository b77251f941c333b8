// One at a time in this folder: whoever sets up or builds holds a file with its process's number; the others wait.
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { setTimeout as pause } from "node:timers/promises";

const LOCK = "dist/.building";

/** Waits until nobody else sets up or builds here; gives how to let go. A holder that was killed holds nothing. */
export async function takeLock() {
  mkdirSync("dist", { recursive: true });
  for (let waits = 0; ; waits++) {
    try {
      writeFileSync(LOCK, String(process.pid), { flag: "wx" });
      break;
    } catch (error) {
      if (error.code !== "EEXIST") throw error;
    }
    const holder = holderOf();
    if (holder !== undefined && !lives(holder)) {
      // Moved away first: of several that see the same dead holder only one gets it.
      const dead = `${LOCK}-${process.pid}`;
      try {
        renameSync(LOCK, dead);
        rmSync(dead);
      } catch {}
      continue;
    }
    if (waits === 10) console.log("waiting: another start is building in this folder");
    await pause(100);
  }
  const letGo = () => {
    if (holderOf() === process.pid) rmSync(LOCK, { force: true });
  };
  process.on("exit", letGo);
  return letGo;
}

function holderOf() {
  try {
    return Number(readFileSync(LOCK, "utf8")) || undefined;
  } catch {
    return undefined;
  }
}

function lives(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === "EPERM";
  }
}
