import { main } from "../../src/cli/main.ts";
import { node, type Platform } from "../../src/cli/platform.ts";

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs one call in this process; files are the given texts by name, else the disk's. */
export async function run(
  args: readonly string[],
  files: Readonly<Record<string, string>> = {},
  other: Partial<Platform> = {},
): Promise<Ran> {
  let out = "";
  let err = "";
  const platform: Platform = {
    ...node,
    ...other,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    read: (path) => (path in files ? { ok: true, text: files[path]! } : node.read(path)),
  };
  const code = await main(args, platform);
  return { code, out, err };
}
