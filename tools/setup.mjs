// Brings a fresh machine to where the command that follows can run: the packages of the lock file, the built command
// line and, with --tests, the outside programs that check what we print. Says what it does; does nothing twice.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { takeLock } from "./lock.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
process.chdir(root);
const [major, minor] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Node ${process.versions.node} is too old: Tubewright needs 20.19 or newer`);
  process.exit(2);
}

const windows = process.platform === "win32";
function run(command, args) {
  // npm is a script on Windows, which only a shell starts.
  const done = spawnSync(command, args, { stdio: "inherit", shell: windows });
  if (done.status !== 0) {
    console.error(`${command} ${args.join(" ")} did not succeed`);
    process.exit(done.status ?? 1);
  }
}

const lock = createHash("sha256").update(readFileSync("package-lock.json")).digest("hex");
const stamp = "node_modules/.set-up";
const isSetUp = () => existsSync(stamp) && readFileSync(stamp, "utf8") === lock;
if (!isSetUp()) {
  const letGo = await takeLock();
  // Whoever held it may have done it all.
  if (!isSetUp()) {
    console.log("setting up: npm ci");
    run("npm", ["ci", "--no-audit", "--no-fund"]);
    writeFileSync(stamp, lock);
  }
  letGo();
}

if (process.argv.includes("--tests")) outsidePrograms();

/** What the tests measure with, and the Debian package that has it. */
function outsidePrograms() {
  const wanted = [
    { name: "pdftoppm", package: "poppler-utils", there: () => answers("pdftoppm", ["-v"]) },
    { name: "rsvg-convert", package: "librsvg2-bin", there: () => answers("rsvg-convert", ["--version"]) },
    { name: "chromium", package: "chromium", there: () => answers("chromium", ["--version"]) },
    // whoever has it only as a server elsewhere has no initdb; the tests start one of their own, none of the system's
    { name: "initdb", package: "postgresql", there: hasPostgres },
    {
      name: "ezdxf",
      package: "python3-ezdxf",
      there: () => answers("/usr/bin/python3", ["-c", "import ezdxf"]),
    },
  ];
  const lacking = wanted.filter((w) => !w.there());
  if (lacking.length === 0) return;
  const packages = lacking.map((w) => w.package);
  const root = typeof process.getuid === "function" && process.getuid() === 0;
  if (!answers("apt-get", ["--version"]) || !root) {
    console.error(`the tests measure with ${lacking.map((w) => w.name).join(", ")}: install ${packages.join(" ")}`);
    console.error(`(on Debian: sudo apt-get install --no-install-recommends ${packages.join(" ")} fonts-dejavu-core)`);
    process.exit(2);
  }
  console.log(`setting up: apt-get install ${packages.join(" ")}`);
  process.env.DEBIAN_FRONTEND = "noninteractive";
  run("apt-get", ["update", "-q"]);
  run("apt-get", ["install", "-y", "-q", "--no-install-recommends", ...packages, "fonts-dejavu-core"]);
}

/** As tests/support/postgres.ts looks for it. */
function hasPostgres() {
  const debian = "/usr/lib/postgresql";
  return existsSync(debian) && readdirSync(debian).some((v) => existsSync(`${debian}/${v}/bin/initdb`));
}

function answers(command, args) {
  const done = spawnSync(command, args, { stdio: "ignore" });
  return done.error === undefined && done.status === 0;
}
