// Where a node of a film is at any moment: between two frames in a straight line.
import type { Direction, ShakeFilm } from "../engine/api";

/** Coordinates of a node, one after the other. */
export const coordinates = 3;

/** One strand of a film: x, y, z node after node, frame after frame [m]. */
export interface Strand {
  nodes: number;
  frames: number;
  places_m: Float32Array;
}

export const mainOf = (film: { main: Float32Array; main_nodes: number; frames: number }): Strand => ({
  nodes: film.main_nodes,
  frames: film.frames,
  places_m: film.main,
});
export const backupOf = (film: { backup: Float32Array; backup_nodes: number; frames: number }): Strand => ({
  nodes: film.backup_nodes,
  frames: film.frames,
  places_m: film.backup,
});

/** The strand at a moment, x, y, z node after node [m]. @param at in frames from the start, held to the film */
export function momentOf(strand: Strand, at: number): Float32Array {
  const held = Math.min(Math.max(at, 0), Math.max(0, strand.frames - 1));
  const early = Math.floor(held);
  const late = Math.min(early + 1, strand.frames - 1);
  const part = held - early;
  const length = strand.nodes * coordinates;
  const before = strand.places_m.subarray(early * length, (early + 1) * length);
  if (part === 0 || late === early) return before;
  const after = strand.places_m.subarray(late * length, (late + 1) * length);
  return before.map((value, index) => value + part * ((after[index] ?? value) - value));
}

const axisOf: Record<Direction, number> = { sideways: 1, up: 2 };

/** Displacement of each main node from the first frame, in the direction of the shake [m]. */
export function displacements(film: ShakeFilm, frame: number, direction: Direction): number[] {
  const axis = axisOf[direction];
  const start = frame * film.main_nodes * coordinates;
  return Array.from({ length: film.main_nodes }, (_, node) => {
    const index = node * coordinates + axis;
    return (film.main[start + index] ?? 0) - (film.main[index] ?? 0);
  });
}

/** Greatest displacement of the main in the film, to either side [m]. */
export function greatestDisplacement(film: ShakeFilm, direction: Direction): number {
  let greatest = 0;
  for (let frame = 0; frame < film.frames; ++frame) {
    for (const each of displacements(film, frame, direction)) greatest = Math.max(greatest, Math.abs(each));
  }
  return greatest;
}

/** The node of the main that stands nearest to a place on the gap axis. */
export function nodeAt(film: ShakeFilm, place_m: number): number {
  let nearest = 0;
  for (let node = 1; node < film.main_nodes; ++node) {
    const away = (index: number): number => Math.abs((film.main[index * coordinates] ?? 0) - place_m);
    if (away(node) < away(nearest)) nearest = node;
  }
  return nearest;
}
