/** What is said while the app starts, and of what this browser cannot do. */
export const START = {
  waiting: "Waiting for another window of Tubewright that is starting…",
  opening: "Opening the job…",
  oneWindow: "Work on a job in one window at a time: this browser does not connect its windows.",
  inPage:
    "Expect the page to stop for moments: this browser started no worker, and the page computes by itself.",
  noProgram: "Reload the page: a part of the program is missing, and nothing can be computed.",
  unprotected:
    "Save each job to a file as well: the browser refused to protect these jobs. It may delete them when the disk is nearly full. A private window deletes them when it closes.",
  noFile: (name: string) =>
    `Start the server again to open ${name}: it did not come from the server, and another job may be open.`,
} as const;

/** What is said as the page of a shop's device starts. */
export const SHOP_START = {
  plain:
    "Open the shop's secure address to change the job, and to work without the network. This page keeps nothing; progress that you mark goes to the shop at once.",
} as const;
