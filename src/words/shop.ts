import { counted } from "./text.ts";

/** What the gate of a shop answers to a request that it does not take: what to do, then why. */
export const SHOP = {
  foreignHost: "Open the shop under the address that the shop PC shows: this is none of its addresses.",
  foreignOrigin: "Open the shop under its own address: a page from elsewhere may ask nothing here.",
  method: (name: string): string => `Use another method: ${name} is not known here.`,
  contentType: (right: string): string => `Send it as Content-Type ${right}.`,
  notPaired: "Join the shop first: scan a code at the shop PC. This device is not part of it.",
  onlyMarks: "Use a device with all rights: this one reads and marks progress.",
  onlyMarksPlain: "Open the secure address for that: over plain http a device reads and marks progress.",
  fault: "Try again. The shop could not answer that.",
  notStored: {
    full: "Make room on the disk of the shop PC, then try again: it is full and nothing was stored.",
    unreachable: "Try again later: the shop's database does not answer and nothing was stored.",
    other: "Try again: the shop could not store it.",
  },
  nothingHere: "Check the address: the shop has nothing here.",
  notBuilt: "Run npm run build:app on the shop PC: the app is not built.",
  tooLong: (most: string): string => `Send ${most} at most.`,
  notJson: "Send one JSON object: the body is none.",
  unknownField: (field: string, known: string): string => `Leave out ${field}: known here are ${known}.`,
  noFields: (known: string): string => `Give one field at least: known here are ${known}.`,
  wrongRights: 'rights: give "all" or "marks".',
  wrongName: (field: string, most: number): string => `${field}: give a name of 1 to ${most} characters.`,
  wrongCount: (field: string, least: number, most: number): string =>
    `${field}: give a whole number from ${least} to ${most}.`,
  noDevice: "Load the list of devices again: the shop has no such device.",
  noJob: "Load the list of jobs again: the shop has no such job.",
  deletedJob: "Restore the job first: it is deleted.",
  notDeleted: "Load the list of jobs again: this job is not deleted.",
  noChange: (seq: number): string => `seq: give the number of a change of this job. ${seq} is none.`,
  nothingYet: "Change the job first: nothing of it is stored yet.",
  noState: "Load the list again: the job has no such named state.",
  stateTaken: (name: string): string => `Give another name: the job has a state "${name}" already.`,
  wrongDigest: "Name the photograph by its SHA-256, 64 small hex digits.",
  otherDigest: "Send the photograph again: its bytes do not match its SHA-256.",
  noPhotograph: "Look at the device that took it: the shop does not have this photograph.",
} as const;

/** The page where a device becomes part of the shop. */
export const JOIN = {
  title: (shop: string): string => `Join ${shop} with this device`,
  noCode: "Scan a code at the shop PC, or type it here. This device is not part of the shop yet.",
  paired: "Open Tubewright if this device is in the shop already",
  name: "Name of this device",
  example: "For example: tablet, bender",
  code: "Code",
  codeIs: "26 letters and digits, as the shop PC shows them",
  pair: "Join the shop",
  works: "What works at this address",
  does: "It shows jobs, leads through the steps and marks progress.",
  missing: "Not here: editing, working without the network, and keeping the screen on.",
  needs: "For those, set up the secure address once.",
  setUp: "Set up the secure address",
  download: "Download the certificate of the shop",
  first: "Download the certificate of the shop's own authority. It can vouch for local addresses alone.",
  compare: "Compare its SHA-256 fingerprint with the one on the shop PC. Install it only if both are equal:",
  install: "Install it and trust it. The menus are common practice, from memory, and differ by version:",
  systems: [
    ["Android", "Settings, Security, Encryption and credentials, Install a certificate, CA certificate."],
    [
      "iPhone and iPad",
      "Settings, Profile Downloaded, Install. Then General, About, Certificate Trust Settings: switch it on.",
    ],
    [
      "Windows",
      "Open the file, Install Certificate, Current User. Place it in Trusted Root Certification Authorities.",
    ],
    ["macOS", "Open the file in Keychain Access. Open it there, then set Trust to Always Trust."],
  ],
  last: "Open the secure address, then scan the code for it at the shop PC:",
  /** Why a code is not taken, by what became of it. */
  refused: {
    used: "Make a new code at the shop PC: this one was used already, and each works once.",
    old: "Make a new code at the shop PC: this one is over ten minutes old.",
    unknown: "Check the code, then type it again: the shop did not make this one.",
    elsewhere: "Make a code for other devices in Tubewright: this one is for the shop PC alone.",
  },
  wait: (seconds: number): string =>
    `Wait ${seconds < 90 ? counted(seconds, "second") : counted(Math.ceil(seconds / 60), "minute")}, then try again: too many codes were wrong.`,
} as const;
