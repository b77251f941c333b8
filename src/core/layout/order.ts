// biome-ignore-all lint/style/noNonNullAssertion: the stack is looked at while it is not empty.
/**
 * IDs so that what each needs stands before it; what is needed but not among `roots` is taken in too. The needs make
 * no circle (the job is checked for that when it is read). An explicit stack: a chain of thousands of bars, each on
 * the one before, must not exhaust the call stack.
 */
export function needsFirst(roots: Iterable<string>, needs: (id: string) => readonly string[]): string[] {
  const order: string[] = [];
  const seen = new Set<string>();
  for (const root of roots) {
    const stack: { id: string; left: string[] }[] = [];
    const enter = (id: string): void => {
      if (seen.has(id)) return;
      seen.add(id);
      stack.push({ id, left: [...needs(id)] });
    };
    enter(root);
    while (stack.length > 0) {
      const top = stack[stack.length - 1]!;
      const next = top.left.pop();
      if (next !== undefined) enter(next);
      else order.push(stack.pop()!.id);
    }
  }
  return order;
}
