import { execFileSync, spawnSync } from "node:child_process";

const PACKAGES: Readonly<Record<string, string>> = {
  pdftoppm: "poppler-utils",
  pdfinfo: "poppler-utils",
  pdftotext: "poppler-utils",
  "rsvg-convert": "librsvg2-bin",
  "/usr/bin/python3": "python3 and python3-ezdxf",
};

/** Runs a program that the outside checks need and gives what it wrote. A missing one fails the test, by name. */
export function run(program: string, ...args: string[]): Buffer {
  if (spawnSync(program, ["--version"]).error)
    throw new Error(
      `the outside checks need ${program}: install the package ${PACKAGES[program] ?? program}`,
    );
  return execFileSync(program, args, { maxBuffer: 1 << 28 });
}
