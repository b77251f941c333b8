/** Colours and sizes of the app (src/app/tokens.css); a test compares them. */
const [ground, paper, ink, quiet, edge] = ["#f5f4ef", "#fdfdfb", "#15171a", "#3f454b", "#70757a"];
const [hand, onHand, look, lookPale] = ["#0a4a9e", "#ffffff", "#9c1f18", "#fbe6e2"];
const target = { minHeight: "56px", padding: "12px 16px", borderRadius: "6px", font: "inherit" };
const button = {
  ...target,
  display: "block",
  boxSizing: "border-box",
  width: "100%",
  textAlign: "center",
  border: `2px solid ${hand}`,
  fontWeight: "700",
};

type Rules = Readonly<Record<string, Readonly<Record<string, string>>>>;
const rules: Rules = {
  html: { background: ground, color: ink, font: "18px/1.45 system-ui", colorScheme: "light" },
  body: { maxWidth: "36em", margin: "0 auto", padding: "16px", overflowWrap: "anywhere" },
  h1: { fontSize: "1.4em", lineHeight: "1.2", margin: "8px 0 16px" },
  h2: { fontSize: "1.15em", margin: "32px 0 8px" },
  p: { margin: "0 0 12px" },
  ol: { paddingLeft: "1.4em" },
  li: { margin: "0 0 16px" },
  dt: { fontWeight: "700" },
  dd: { margin: "0 0 8px" },
  label: { display: "block", fontWeight: "700", margin: "16px 0 4px" },
  small: { display: "block", color: quiet, margin: "4px 0 0", fontSize: "0.9em" },
  input: {
    ...target,
    boxSizing: "border-box",
    width: "100%",
    border: `1.5px solid ${edge}`,
    background: paper,
    color: ink,
  },
  code: { fontFamily: "monospace", fontSize: "1.05em" },
  button: { ...button, margin: "20px 0", background: hand, color: onHand },
  ".button": { ...button, background: paper, color: hand, textDecoration: "none" },
  ".link": { display: "flex", minHeight: "48px", alignItems: "center", color: hand },
  ".alert": {
    border: `2px solid ${look}`,
    borderRadius: "6px",
    background: lookPale,
    color: look,
    padding: "12px",
  },
  ":focus-visible": { outline: `4px solid ${hand}`, outlineOffset: "2px" },
};

const hyphenated = (name: string): string => name.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`);

export const JOIN_CSS = Object.entries(rules)
  .map(
    ([selector, rule]) =>
      `${selector}{${Object.entries(rule)
        .map(([name, value]) => `${hyphenated(name)}:${value}`)
        .join(";")}}`,
  )
  .join("\n");
