/** What the server of the app says, on the terminal and to who asks for what there is not. */
export const SERVE = {
  serving: "Tubewright serves this machine alone; stop it with Ctrl-C. Its address:",
  already: "Tubewright serves this folder already. Its address:",
  ask: (host: string): string => `ask for ${host}`,
  readOnly: "this server only shows",
  unreadable: (why: string): string => `that cannot be read: ${why}`,
  noJob: (name: string): string => `the folder has no job file ${JSON.stringify(name)}`,
  noPage: "no such page",
  notBuilt: (app: string): string => `${app}: the app is not built; run npm run build:app`,
  notInFolder: (folder: string, name: string): string =>
    `${folder}: there is no job file ${JSON.stringify(name)} in it`,
  refused: (why: string): string =>
    `name a free port with --port and keep to it: ${why}. A browser keeps jobs by port`,
  otherFolder: (port: number): string => `Tubewright serves another folder at port ${port}`,
  another: (port: number): string => `another program holds port ${port}`,
  notAllowed: (port: number): string => `this user may not use port ${port}`,
  system: (port: number, why: string): string => `the system refuses port ${port} (${why})`,
} as const;

/** Why a file of the folder cannot be read, by the code of the operating system. */
export const UNREAD: Readonly<Record<string, string>> = {
  EACCES: "this user may not open it",
  EPERM: "this user may not open it",
  ENOENT: "it is no longer there",
  ERR_FS_FILE_TOO_LARGE: "it is too large",
  EMFILE: "too many files are open; try again",
  EIO: "the disk does not give it",
};
