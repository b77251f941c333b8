import { expect, it } from "vitest";
import { issueCards } from "./issue.ts";

const base = { format: "tubewright job", version: 2, bars: {} } as const;
const run = (
  document: Parameters<ReturnType<typeof issueCards>["edit"]>[0],
  codes: Record<string, string>,
  on: string,
) => {
  const out = issueCards(codes, on).edit(document);
  if (!out.ok) throw new Error(out.lines.join());
  return out.document;
};

it("counts the cards of a job: each by itself, only where its figures are others", () => {
  const first = run(base, { hoop: "4dce", stay: "0001" }, "2026-11-29");
  expect(first.cards).toEqual({
    hoop: { n: 1, code: "4dce", on: "2026-11-29" },
    stay: { n: 1, code: "0001", on: "2026-11-29" },
  });
  const second = run(first, { hoop: "beef" }, "2026-12-01");
  expect(second.cards).toEqual({
    hoop: { n: 2, code: "beef", on: "2026-12-01" },
    stay: { n: 1, code: "0001", on: "2026-11-29" },
  });
  // the same figures once more are the same card: the document is the very same
  expect(run(second, { hoop: "beef", stay: "0001" }, "2027-01-01")).toBe(second);
});
