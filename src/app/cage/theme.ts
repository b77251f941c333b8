/** Colours of the drawing, as #rrggbb. Every state also differs in line or mark, never by colour alone. */
export interface ViewTheme {
  readonly ground: string;
  /** Outlines. */
  readonly ink: string;
  /** What is not a bar: body, driver, points, plates. */
  readonly muted: string;
  /** A tube's side toward the viewer, and where it turns away. */
  readonly fill: string;
  readonly shade: string;
  readonly inHand: string;
  readonly inHandFill: string;
  readonly attention: string;
  readonly attentionFill: string;
}

export const lightTheme: ViewTheme = {
  ground: "#f5f4ef",
  ink: "#15171a",
  muted: "#6f7479",
  fill: "#fdfdfb",
  shade: "#d4d5d2",
  inHand: "#0a57b8",
  inHandFill: "#d6e6fb",
  attention: "#b3261e",
  attentionFill: "#fbe3df",
};

export const darkTheme: ViewTheme = {
  ground: "#14171a",
  ink: "#e9ebe8",
  muted: "#8d949a",
  fill: "#2f353a",
  shade: "#1d2226",
  inHand: "#7cb8ff",
  inHandFill: "#24405f",
  attention: "#ff9c8f",
  attentionFill: "#5a2a26",
};
