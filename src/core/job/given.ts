type Given<T> = { [K in keyof T]: Exclude<T[K], undefined> };

/** The entries that are there; a key with undefined is as good as none. */
export const given = <T extends object>(entries: T): Given<T> =>
  Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as Given<T>;
