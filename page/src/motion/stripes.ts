// The main over place and time as shades: how far from rest, whichever way. Waves that travel are stripes that slant.
import type { Direction, ShakeFilm } from "../engine/api";
import { coordinates, displacements } from "./film_places";

/** Small swings are lifted out of the paper: shade goes with this power of the displacement. */
const lift = 0.6;

export interface Shades {
  columns: number;
  rows: number;
  /** Row after row: 0 at rest to 1 farthest out. */
  values: Float32Array;
}

/** Where each column lies between two nodes: of the first one its number, and the part of the way to the next. */
function between(film: ShakeFilm, gap_m: number, columns: number): { node: number; part: number }[] {
  const standing = Array.from({ length: film.main_nodes }, (_, node) => film.main[node * coordinates] ?? 0);
  let node = 0;
  return Array.from({ length: columns }, (_, column) => {
    const at_m = (gap_m * (column + 0.5)) / columns;
    while (node + 2 < standing.length && standing[node + 1]! < at_m) ++node;
    const bar_m = standing[node + 1]! - standing[node]!;
    return { node, part: bar_m > 0 ? Math.min(1, Math.max(0, (at_m - standing[node]!) / bar_m)) : 0 };
  });
}

/** @param greatest_m displacement that is darkest [m] */
export function shades(film: ShakeFilm, direction: Direction, gap_m: number, greatest_m: number, columns: number): Shades {
  const ways = between(film, gap_m, columns);
  const values = new Float32Array(columns * film.frames);
  for (let frame = 0; frame < film.frames; ++frame) {
    const moved = displacements(film, frame, direction);
    ways.forEach(({ node, part }, column) => {
      const away_m = Math.abs((1 - part) * moved[node]! + part * (moved[node + 1] ?? moved[node]!));
      values[frame * columns + column] = greatest_m > 0 ? Math.min(1, away_m / greatest_m) ** lift : 0;
    });
  }
  return { columns, rows: film.frames, values };
}
