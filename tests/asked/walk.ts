/** The schema of the job file, walked: every field of a job by its place, names and numbers in a list as "*". */

interface Schema {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Schema>>;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly type?: string;
  readonly const?: unknown;
  readonly deprecated?: boolean;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly additionalProperties?: Schema | boolean;
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
}

/**
 * Every field of a schema, as the key that has it: `tubes.*.od`, `bars.*.path.*.near`. A list, or a choice between
 * shapes, is what its shapes hold; one of plain figures is a field itself. What can only be one thing (a constant, the
 * format's name) is no question, nor is what the schema calls deprecated; a shape inside itself is walked once.
 */
export function fieldsIn(root: object): ReadonlySet<string> {
  const whole = root as Schema;
  const found = new Set<string>();
  const visit = (here: Schema, path: readonly string[], within: readonly string[]): void => {
    if (here.deprecated) return;
    if (here.$ref !== undefined) {
      const { $ref } = here;
      const to = $ref === "#" ? whole : whole.$defs?.[$ref.split("/").at(-1) ?? ""];
      if (to && !within.includes($ref)) visit(to, path, [...within, $ref]);
      return;
    }
    const shapes = here.anyOf ?? here.oneOf;
    if (shapes) {
      for (const shape of shapes) visit(shape, path, within);
      return;
    }
    for (const [key, value] of Object.entries(here.properties ?? {})) visit(value, [...path, key], within);
    if (typeof here.additionalProperties === "object")
      visit(here.additionalProperties, [...path, "*"], within);
    if (here.items) visit(here.items, [...path, "*"], within);
    for (const item of here.prefixItems ?? []) visit(item, [...path, "*"], within);
    const isConst = here.const !== undefined && path.length === 1;
    if (here.type !== "object" && here.type !== "array" && !isConst) found.add(path.join("."));
  };
  visit(whole, [], []);
  return found;
}
