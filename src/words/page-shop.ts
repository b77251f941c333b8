import type { Reason } from "../shared/index.ts";
import { counted } from "./text.ts";

/** Where the job in hand is kept, under its name. */
export const SHOP_KEPT = {
  apart: "on this device only",
  memory: "NOT KEPT: MEMORY ONLY",
  saving: "saving to the shop",
  kept: (time: string) => `in the shop, at ${time}`,
  refused: "NOT IN THE SHOP",
  readOnly: (state: string) => `${state}; read-only but for progress`,
} as const;

/** What must be known of the shop at once. */
export const SHOP_NOTICES = {
  refused: {
    "not stored":
      "Wait, or look at the shop PC: the shop does not store the last changes. They are tried again.",
    full: "Make room on the shop PC: its disk is full, and the last changes are not in the shop. They are tried again.",
    "not allowed":
      "Undo the last step, or save the job to a file: the shop did not take it. This device marks progress alone.",
    gone: "Save the job to a file to keep it: it was deleted in the shop. It is on this device only.",
    unreadable: "Reload the page: the shop could not read the last changes. They are on this device.",
    version: "Reload the page: the shop runs another version of Tubewright.",
  } satisfies Record<Reason, string>,
  out: "Scan a new code at the shop PC to join again: this device was put out of the shop. Jobs stay on this device.",
  version: "Reload the page: the shop runs another version of Tubewright.",
  gave: (who: string, what: string) =>
    `Look at ${what}: ${who} changed it at the same time, and that change counts.`,
  someone: "another device",
  carried: (jobs: string) => `Take in what came along from the shop's former address? ${jobs}`,
  take: "Take it in",
  leaveIt: "Leave it",
  notTaken: (jobs: string) => `Try again: the shop did not take ${jobs}.`,
  mineBack: "Put mine back",
  mineBackStep: (what: string) => `put ${what} back`,
  ok: "OK",
  present: (name: string, bar: string, station: string) =>
    bar === "" ? `${name} is at the ${station}` : `${name} has ${bar} in hand, ${station}`,
  presentLabel: "Other devices in this job",
} as const;

/** Jobs of the shop, on the page of jobs. */
export const SHOP_JOBS = {
  region: "Jobs of the shop",
  title: "In the shop, not on this device yet",
  none: "All jobs of the shop are on this device.",
  down: "The shop does not answer now. Jobs of this device can be worked on; changes go to the shop when it answers.",
  moved: "The shop has another address",
  movedMore:
    "Join the shop at its new address first, by a code of the shop PC. Then type that address here: what is not in the shop yet goes along.",
  address: "New address, as the shop PC shows it",
  goThere: "Go there",
  noAddress: "Type the secure address as the shop PC shows it, for example https://192.168.1.7:8735.",
  deletedTitle: "Deleted in the shop",
  deletedMore: "The shop keeps a deleted job for 30 days.",
  bringBack: (name: string) => `Bring ${name} back`,
  deleted: (when: string) => `deleted ${when}`,
  notOpened: "Try again: the job did not come from the shop.",
  notDone: (why: string) => `Try again: the shop did not do it. ${why}`,
  /** Of a job that is on this device. */
  where: {
    kept: "on this device and in the shop",
    unsent: "on this device; its last changes are not in the shop yet",
    here: "on this device only",
    deleted: "on this device only; deleted in the shop",
  },
  devices: "Devices of the shop",
  history: "History of this job",
  photographs: "Photographs of this job",
} as const;

export const DEVICES = {
  title: "Devices of the shop",
  here: "this device",
  seen: (when: string) => `last seen ${when}`,
  rights: { all: "reads and changes everything", marks: "reads and marks progress" },
  rename: "Rename",
  nameLabel: "Name of the device",
  changeRights: "What it may do",
  putOut: (name: string) => `Put ${name} out`,
  putOutTitle: (name: string) => `Put ${name} out of the shop?`,
  putOutMore: "It is out at once. Jobs that it holds stay on it; to join again it scans a new code.",
  putOutDo: "Put it out",
  cancel: "Cancel",
  joinTitle: "Let a device join",
  joinMore: "Choose what it may do, then scan the code with its camera. A code works once, for 10 minutes.",
  newCode: (rights: "all" | "marks") =>
    rights === "all" ? "Code for a device that changes everything" : "Code for a device that marks progress",
  secure: "Secure address: works without the network, screen stays awake, camera",
  plain: "Plain address: shows the job and marks progress, nothing to install",
  qr: (address: string) => `QR code of ${address}`,
  until: (time: string) => `Scan it before ${time}.`,
  joined: (name: string) => `${name} has joined.`,
  fingerprint: "Fingerprint of the shop's authority",
  fingerprintMore:
    "The secure address needs the shop's authority installed once on each device; the plain address leads through it. Compare this fingerprint with the one on the device.",
  shopOnly: "Join a shop first: this page belongs to none.",
} as const;

export const HISTORY = {
  title: "History",
  of: (job: string) => `History of ${job}`,
  loading: "Reading the history…",
  failed: (why: string) => `Try again: the history did not come from the shop. ${why}`,
  none: "No changes in the shop yet.",
  all: "All bars and the rest",
  filter: "Show one bar",
  states: "Named states",
  nameNow: "Name the state of now",
  nameLabel: "Name of this state",
  firstName: "As quoted",
  keep: "Keep the name",
  removeName: (name: string) => `Take the name ${name} away`,
  entry: (changes: number, who: string) => `${who}: ${counted(changes, "change")}`,
  first: "The job came into the shop.",
  look: "Look at this state",
  lookTitle: (when: string) => `The job at ${when}`,
  bars: (count: number) => counted(count, "bar"),
  same: "The same as now.",
  differs: (count: number) => `${counted(count, "thing")} differ from now:`,
  bringBack: "Bring this state back",
  bringBackStep: (when: string) => `bring back the job of ${when}`,
  bringBackMore:
    "It is a new change: it can be undone, and nothing of what came after is lost from the history.",
  copy: "Save it as a file",
  close: "Close",
  more: (count: number) => `and ${count} more`,
  /** What changed of a bar, or of the job, by its key in the file. */
  part: {
    path: "its path",
    progress: "its progress",
    label: "its label",
    tube: "its tube",
    die: "its die",
    A: "end A",
    B: "end B",
    follow: "what it follows",
    made: "what was made or read of it",
  } as Readonly<Record<string, string>>,
  partOther: (key: string) => `its ${key}`,
  added: "added",
  removed: "taken out",
  job: {
    name: "Name of the job",
    show: "Units",
    order: "Order of fitting",
    readings: "Readings in the car",
    points: "Point",
    plates: "Plate",
    tubes: "Tube",
    dies: "Die",
    shop: "Shop's settings",
    notcher: "Notcher",
    bender: "Bender",
    cards: "Counts of cards",
    rack: "Rack",
    body: "Body",
    driver: "Driver",
    asBuilt: "Places as built",
  } as Readonly<Record<string, string>>,
} as const;

export const PHOTOGRAPHS = {
  title: "Photographs",
  of: (job: string) => `Photographs of ${job}`,
  which: "What it shows",
  job: "The job as a whole",
  take: "Take or choose a photograph",
  none: "No photographs yet.",
  sending: "Sending the photograph to the shop…",
  failed: (why: string) => `Try again: the shop did not take it. ${why}`,
  notPicture: "Choose a photograph: this file is no picture that this browser shows.",
  from: (who: string, when: string) => `${who}, ${when}`,
  alt: (what: string, when: string) => `${what}, ${when}`,
  remove: "Take it out",
  secure: "Open the shop's secure address to add photographs.",
} as const;
