/** Names that Windows keeps for devices, whatever their ending. */
const DEVICES = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;
const LONGEST = 60;

/**
 * A file name for each ID that every system takes, all different even where case does not count: letters, figures,
 * dot, hyphen and underscore stay, accents go, all else becomes a hyphen.
 */
export function fileNames(ids: readonly string[]): ReadonlyMap<string, string> {
  const taken = new Set<string>();
  const names = new Map<string, string>();
  for (const id of ids) {
    const plain = safe(id);
    let name = plain;
    for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${plain}-${n}`;
    taken.add(name.toLowerCase());
    names.set(id, name);
  }
  return names;
}

function safe(id: string): string {
  const bare = id.normalize("NFKD").replace(/\p{M}/gu, "");
  const name = bare
    .replace(/[^A-Za-z0-9._-]+/g, "-")
    .slice(0, LONGEST)
    .replace(/^[-.]+|[-.]+$/g, "");
  if (name === "") return "bar";
  return DEVICES.test(name) ? `bar-${name}` : name;
}
