// Between places on the gap axis, standing, and along the unloaded main. Within a bay the main is stretched evenly.
import type { Bay } from "../engine/api";
import { clamp } from "./state";

/** The engine takes no bay shorter than this along the unloaded main (engine/spacing/retape.h) [m]. */
const engineLeastBay_m = 0.15;
/** Places are written into the rig file rounded: a bay at the very limit could come out under it [m]. */
const rounding_m = 0.001;
/** No tape is dragged nearer to its neighbour than this, along the unloaded main [m]. */
const leastBay_m = engineLeastBay_m + rounding_m;

interface Stretch {
  from_m: number;
  to_m: number;
  naturalFrom_m: number;
  naturalTo_m: number;
}

/** The bays as pieces of webbing: in the first and the last the hardware at the anchor is not stretched with them. */
function stretches(bays: readonly Bay[]): Stretch[] {
  let natural_m = 0;
  const all = bays.map((bay): Stretch => {
    const piece = { from_m: bay.from_m, to_m: bay.to_m, naturalFrom_m: natural_m, naturalTo_m: bay.running_length_m };
    natural_m = bay.running_length_m;
    return piece;
  });
  const first = all[0];
  const last = all[all.length - 1];
  if (first && last && all.length > 2) {
    first.from_m = first.to_m - (first.naturalTo_m - first.naturalFrom_m) * standingPerNatural(all[1]!);
    last.to_m = last.from_m + (last.naturalTo_m - last.naturalFrom_m) * standingPerNatural(all[all.length - 2]!);
  }
  return all;
}

function standingPerNatural(piece: Stretch): number {
  return (piece.to_m - piece.from_m) / (piece.naturalTo_m - piece.naturalFrom_m);
}

/** @param at_m on the gap axis [m] @return along the unloaded main from the near connector [m] */
export function toNatural(bays: readonly Bay[], at_m: number): number {
  const all = stretches(bays);
  const piece = all.find((one) => at_m <= one.to_m) ?? all[all.length - 1];
  if (!piece) return 0;
  const natural_m = piece.naturalFrom_m + (at_m - piece.from_m) / standingPerNatural(piece);
  return clamp(natural_m, 0, all[all.length - 1]!.naturalTo_m);
}

/** The way back of toNatural. */
export function toStanding(bays: readonly Bay[], natural_m: number): number {
  const all = stretches(bays);
  const piece = all.find((one) => natural_m <= one.naturalTo_m) ?? all[all.length - 1];
  return piece ? piece.from_m + (natural_m - piece.naturalFrom_m) * standingPerNatural(piece) : 0;
}

/** Along the unloaded main to a tape [m]; 0 for the near anchor. */
export function tapeNatural(bays: readonly Bay[], tape: number): number {
  return bays[tape - 1]?.running_length_m ?? 0;
}

/** Where a tape is on the gap axis [m]; undefined: there is no such tape. */
export function tapeAt(bays: readonly Bay[], tape: number): number | undefined {
  return tape < bays.length ? bays[tape - 1]?.to_m : undefined;
}

/** A place for a tape that keeps it between its neighbours, along the unloaded main [m]. */
export function betweenNeighbours(bays: readonly Bay[], tape: number, natural_m: number): number {
  const from = tapeNatural(bays, tape - 1) + leastBay_m;
  const to = tapeNatural(bays, tape + 1) - leastBay_m;
  return from < to ? clamp(natural_m, from, to) : tapeNatural(bays, tape);
}

/** The bay over a place of the gap axis. */
export function bayAt(bays: readonly Bay[], at_m: number): Bay | undefined {
  return bays.find((bay) => at_m <= bay.to_m) ?? bays[bays.length - 1];
}
