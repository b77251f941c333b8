/** What can be done with the bar in hand, with one of its nodes, and what a new one is asked. */

export const BAR_PANEL = {
  rename: "Rename",
  deselect: "Deselect",
  findings: "Findings",
  path: "Path",
  create: "New bar",
  duplicate: "Duplicate",
  mirror: "Mirror",
  move: "Move",
  follow: "Follow a bar",
  unfollow: "Stop following",
  remove: "Delete",
  renameTitle: "Rename the bar",
  nameLabel: "Name of the bar",
  renamed: (from: string, to: string) => `${from} renamed ${to}`,
  progress: (bar: string) => `Progress of ${bar}`,
  followsWhich: (bar: string) => `${bar} follows which bar?`,
  unfollowTitle: (bar: string) => `${bar}: stop following?`,
  unfollowMore: "Its corners stay where they are, as places of their own.",
  followed: (bar: string, other: string) => `${bar} follows ${other}`,
  unfollowed: (bar: string) => `${bar} stops following`,
  deleteTitle: (bar: string) => `Delete ${bar}?`,
  needed: "Other bars need it:",
  deleteLeave: "Delete it, keep the others where they are",
  deleteAll: "Delete it and the bars that need it",
  cancel: "Cancel",
  copy: "copy",
  mirrored: "mirrored",
} as const;

export const NEW_BAR = {
  title: "New bar",
  nameLabel: "Name of the bar",
  name: "New bar",
  next: "Next",
  tube: (bar: string) => `${bar}: which tube?`,
  otherTube: "Another tube",
  od: "Tube: outside diameter",
  wall: "Tube: wall",
} as const;

export const MOVE_BAR = {
  way: (bar: string) => `Move ${bar}, feet and all: which way?`,
  by: (bar: string, sides: readonly [string, string]) => `Move ${bar}: distance ${sides.join(" or ")}`,
  sides: (sides: readonly [string, string]) => sides.join(" or "),
  step: (bar: string, by: string, side: string) => `${bar}: ${by} ${side}`,
} as const;

export const NODE_TOOLS = {
  title: (bar: string, node: string) => `${bar}: ${node}`,
  tap: "Pick its host in the picture",
  way: "Change how it is placed",
  off: "Move it off the bar's centreline",
  by: "Move it from the point",
  moved: (bar: string, node: string) => `${bar}: ${node} moved off`,
  crowd: "Notch it to another bar too",
  uncrowd: "Remove a bar from this notch",
  add: (node: string) => `Add a corner after ${node}`,
  remove: "Delete this corner",
  which: (title: string, way: string) => `${title} ${way}: which?`,
  none: {
    host: "Add another bar first: this job has one.",
    plate: 'Add a plate first, under "The job".',
    point: 'Add a point first, under "The job".',
  },
  crowdTitle: (title: string) => `${title}: notch it to which bar too?`,
  uncrowdTitle: (title: string) => `${title}: remove which bar?`,
  placed: (bar: string, node: string) => `${bar}: ${node} placed another way`,
  added: (bar: string, corner: number) => `${bar}: corner ${corner} added`,
  removed: (bar: string, corner: number) => `${bar}: corner ${corner} deleted`,
  crowded: (bar: string, node: string) => `${bar}: other bars at ${node}`,
} as const;
