/** "14:32", as this device writes times. */
export const timeOf = (ms: number): string => new Date(ms).toLocaleTimeString([], { timeStyle: "short" });

/** "29 Nov 2026, 14:32" */
export const whenOf = (ms: number): string =>
  new Date(ms).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });
