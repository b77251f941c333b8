import { describe, expect, it } from "vitest";
import { jobSchemaJson } from "./index.ts";

interface Described {
  readonly place: string;
  readonly description: unknown;
}

/** Every property of a JSON Schema with its description, its own or that of what it refers to. */
function propertiesOf(schema: unknown, place = ""): readonly Described[] {
  if (typeof schema !== "object" || schema === null) return [];
  if (Array.isArray(schema)) return schema.flatMap((entry, i) => propertiesOf(entry, `${place}[${i}]`));
  return Object.entries(schema).flatMap(([key, value]: [string, unknown]) => {
    if (key !== "properties") return propertiesOf(value, `${place}.${key}`);
    return Object.entries(value as object).flatMap(([name, one]: [string, unknown]) => [
      { place: `${place}.${name}`, description: (one as { description?: unknown }).description },
      ...propertiesOf(one, `${place}.${name}`),
    ]);
  });
}

const properties = propertiesOf(jobSchemaJson());
const texts = properties.map((p) => (typeof p.description === "string" ? p.description : ""));

describe("the published schema, read by a person", () => {
  it("says of every property what it is", () => {
    expect(properties.length).toBeGreaterThan(150);
    const bare = properties.filter((p) => typeof p.description !== "string").map((p) => p.place);
    expect(bare).toEqual([]);
  });

  it("says it in sentences of at most 20 words, each with its full stop", () => {
    const sentences = texts.flatMap((text) => text.split(/(?<=\.) (?=[A-Z])/));
    expect(sentences.filter((s) => s.split(/\s+/).length > 20)).toEqual([]);
    expect(texts.filter((text) => !/^[A-Z].*\.$/s.test(text))).toEqual([]);
  });

  it("says it in the shop's words", () => {
    const other =
      /\b(stands(?! on)|lies|told|said|anew|so|no more|good to|sure to|felt|costs|pays|trim|blank|station|rotation|roll)\b/i;
    expect(texts.filter((text) => other.test(text))).toEqual([]);
  });

  it("finds a property without one wherever it is", () => {
    const planted = { properties: { a: { description: "A.", anyOf: [{ properties: { b: {} } }] } } };
    expect(propertiesOf(planted).filter((p) => p.description === undefined)).toHaveLength(1);
  });
});
