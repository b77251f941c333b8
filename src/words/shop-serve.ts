/** What the terminal says where a shop is opened. */
export const SHOP_SERVE = {
  serving: "Tubewright is open to the shop's devices on this network; stop it with Ctrl-C.",
  others: "Other devices join by a code: open Jobs, Devices of the shop.",
  addresses: (list: readonly string[]): string => `Addresses: ${list.join(" ")}`,
  fingerprint: (print: string): string => `Fingerprint of the shop's authority: ${print}`,
  here: "On this machine:",
  first: "To let a browser of this machine in, once and within ten minutes:",
  inUse: (folder: string): string =>
    `stop the other one first: a shop is open on ${folder} already, and two would not see each other's changes`,
  notOpened: (why: "newer" | "damaged" | "full" | "unreachable" | "other"): string =>
    ({
      newer: "use the newer Tubewright: it wrote this shop's database, and this one does not read it",
      damaged: "bring the shop's database back from a backup: it cannot be read",
      full: "make room on the disk first: the shop's database cannot be opened",
      unreachable: "start PostgreSQL, or mend the connection string: the database does not answer",
      other: "look at the shop's folder and its rights: the database cannot be opened",
    })[why],
  onlyShop: (option: string): string => `give --shop with --${option}: it is for a shop alone`,
  samePort: (port: number): string => `give two ports: both are ${port}`,
} as const;
