// biome-ignore-all lint/style/noNonNullAssertion: IDs come from the bars of this fitting.
import { above, type LandsOn, standing } from "../scene/index.ts";
import { hits, isWelded, meets, ringOf, type Welding } from "./ring.ts";

/**
 * How much of its own joints' rings a bar that goes in last among others finds shut by them: places, of 36 a ring, to
 * which a torch would get with nothing in but what the bar stands on. They are never reached, as there was no joint
 * before; what the bar shuts of other joints in turn can be welded before it goes in.
 */
export type Shut = (id: string, among: readonly string[]) => number;

/** Each bar's rings are looked at once, when first asked for. With the roof off, as a cage is welded at the last. */
export function shutOf(fitting: Welding, landsOn: LandsOn): Shut {
  const bars = fitting.bars.map((b) => standing(b.bar));
  const parts = fitting.parts(true).filter(isWelded);
  const known = new Map<string, Held[]>();
  const held = (id: string): Held[] => {
    const own = fitting.bars.find((b) => b.bar.id === id)!;
    const stands = new Set([id, ...above(id, landsOn)]);
    const fixed = [...bars.filter((o) => stands.has(o.id)), ...parts];
    const others = bars.filter((o) => !stands.has(o.id));
    return (
      (["A", "B"] as const)
        .flatMap((end) => ringOf(own, end, fitting.torch))
        .map((ways) =>
          ways
            .filter((rod) => !hits(rod, fitting.torch, fixed))
            .map((rod) => others.filter((o) => meets(o, rod, fitting.torch)).map((o) => o.id)),
        )
        // One that nothing shuts is of no more interest, nor is one that is shut whatever the order.
        .filter((ways) => ways.length > 0 && ways.every((by) => by.length > 0))
    );
  };
  return (id, among) => {
    const rings = known.get(id) ?? held(id);
    known.set(id, rings);
    const stands = new Set(among);
    return rings.filter((ways) => ways.every((by) => by.some((o) => stands.has(o)))).length;
  };
}

/** A place of a ring: for each way to hold a torch to it, the bars that shut that way. */
type Held = readonly (readonly string[])[];
