/** The 3D picture of the cage: its views, from where it is seen, and its section. */

type View = "left" | "right" | "front" | "rear" | "top" | "bottom";

/** From where the camera looks, clockwise from the front in steps of 45°; left and right are the driver's. */
const ROUND = ["front", "front left", "left", "rear left", "rear", "rear right", "right", "front right"];

/** "seen from the left", "seen from the front left and above": azimuth from forward toward left, elevation (degrees). */
export function seenFrom(azimuth: number, elevation: number): string {
  if (elevation > 75) return "seen from above";
  if (elevation < -75) return "seen from below";
  const side = ROUND[((Math.round(azimuth / 45) % 8) + 8) % 8];
  return `seen from the ${side}${elevation > 10 ? " and above" : elevation < -10 ? " and below" : ""}`;
}

export const VIEW = {
  views: "Views",
  all: "Show all",
  threeQuarter: "Three-quarter",
  straight: {
    left: "Left",
    right: "Right",
    front: "Front",
    rear: "Rear",
    top: "Top",
    bottom: "Bottom",
  } as const satisfies Record<View, string>,
  turnLeft: "Turn left",
  turnRight: "Turn right",
  closer: "Zoom in",
  farther: "Zoom out",
  names: "Names",
  section: "Section",
  canvas: (label: string, seen: string) =>
    `${label}${seen === "" ? "" : `, ${seen}`}. Arrow keys turn it, plus and minus zoom, Home shows all.`,
  cut: (axis: string, at: string) => `, cut at ${axis} = ${at}`,
  lost: "Wait a moment: the picture was lost and will be drawn again.",
  none: "Work by numbers and cards: this device draws no picture in 3D (WebGL 2 is missing).",
  sectionTitle: "Section of the picture",
  whole: "No section",
  planes: {
    x: "Square to the car, at a distance forward",
    y: "Along the car, at a distance left",
    z: "Level, at a height",
  },
  planeAt: { x: "Section: distance forward", y: "Section: distance left", z: "Section: height" },
} as const;

/** Keys of the picture while it has the focus: what the browser calls each (where it is asked for), and what it does. */
export const VIEW_KEYS = {
  turn: { shown: "← → ↑ ↓", does: "Turn the picture" },
  pan: { shown: "Shift + ← → ↑ ↓", does: "Move the picture" },
  zoom: { shown: "+ −", does: "Zoom in, zoom out" },
  all: { shown: "Home", does: "Show all" },
  next: { key: ".", shown: ".", does: "Point at the next bar" },
  before: { key: ",", shown: ",", does: "Point at the bar before" },
  take: { key: "Enter", shown: "Enter", does: "Take that bar in hand" },
  leave: { key: "Escape", shown: "Esc", does: "Point at no bar" },
} as const;
