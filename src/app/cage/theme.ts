/** Colours of the drawing, as #rrggbb. Every state also differs in line or mark, never by colour alone. */
export interface ViewTheme {
  /** Behind everything; what is far pales toward it. */
  readonly ground: string;
  /** Outlines of what is near. */
  readonly ink: string;
  /** What is not a bar: body, driver, points, edges of plates. */
  readonly muted: string;
  readonly plate: string;
  /** A tube's side toward the light, and where it turns away. */
  readonly fill: string;
  readonly shade: string;
  readonly inHand: string;
  readonly inHandFill: string;
  readonly inHandShade: string;
  /** What the bar in hand lands on. */
  readonly host: string;
  readonly hostFill: string;
  readonly hostShade: string;
  readonly attention: string;
  readonly attentionFill: string;
  readonly attentionShade: string;
}

export const lightTheme: ViewTheme = {
  ground: "#f5f4ef",
  ink: "#15171a",
  muted: "#6f7479",
  plate: "#dbdbd6",
  fill: "#ffffff",
  shade: "#b4b7b8",
  inHand: "#0a57b8",
  inHandFill: "#c0d5f2",
  inHandShade: "#7fa3d8",
  host: "#2f6fc0",
  hostFill: "#f0f6ff",
  hostShade: "#b5cdec",
  attention: "#b3261e",
  attentionFill: "#fbe3df",
  attentionShade: "#e2aaa2",
};

export const darkTheme: ViewTheme = {
  ground: "#14171a",
  ink: "#e9ebe8",
  muted: "#8d949a",
  plate: "#363c41",
  fill: "#565c62",
  shade: "#22272b",
  inHand: "#7cb8ff",
  inHandFill: "#47719f",
  inHandShade: "#22405f",
  host: "#6f9fd8",
  hostFill: "#465a72",
  hostShade: "#1f2c3b",
  attention: "#ff9c8f",
  attentionFill: "#7d3f38",
  attentionShade: "#451f1c",
};
