// One moment of a shake on a canvas: this layout over the even one, same scale, same time.
import type { ShakeFilm } from "../engine/api";
import { heightAt, type Drawing, type Height } from "./canvas";
import { plotMargin } from "./chart_shape";
import { backupOf, coordinates, mainOf, momentOf, nodeAt } from "./film_places";
import { writing, type Ink } from "./ink";
import { acrossProjection, enlargement, spread, type Box, type Project, type ScreenPoint, type ViewFrom } from "./projection";
import { lineNames, type ShakeFilms } from "./shake_films";

/** How both lines share the picture: each in a row of its own, or laid one on the other. */
export type Arrangement = "rows" | "laid on";

interface Row {
  film: ShakeFilm;
  look: keyof typeof lineNames;
  box: Box;
  /** Where its name stands [px]. */
  name_y: number;
  project: Project;
  shakenNode: number;
}

/** Everything of the picture that stays from frame to frame. */
export interface ShakeScene {
  rows: Row[];
  height: number;
  times: number;
  gap_m: number;
}

const rowSize: Height = { share: 0.26, least: 120, greatest: 230 };
const footer = 24;
const nameUp = 4;
const footerUp = 7;

interface Asked {
  films: ShakeFilms;
  view: ViewFrom;
  arrangement: Arrangement;
  range: { low_m: number; high_m: number };
  width: number;
}

/** What lies across in both films together, seen from one side [m]. */
export function rangeOf({ chord, rig, even }: ShakeFilms, view: ViewFrom): { low_m: number; high_m: number } {
  const strands = [rig, ...(even ? [even] : [])].flatMap((film) => [mainOf(film), backupOf(film)]);
  return spread(view, chord, strands);
}

export function shakeScene({ films, view, arrangement, range, width }: Asked): ShakeScene {
  const lines = [{ film: films.rig, look: "this" as const }, ...(films.even ? [{ film: films.even, look: "other" as const }] : [])];
  const rowHeight = Math.round(heightAt(rowSize, width));
  const apart = arrangement === "rows" ? rowHeight + writing.line : 0;
  const heads = arrangement === "rows" ? writing.line : writing.line * lines.length;
  const plot = { left: plotMargin.left, width: Math.max(1, width - plotMargin.left - plotMargin.right), height: rowHeight };
  const times = enlargement(films.chord.gap_m, range.high_m - range.low_m, { ...plot, top: 0 });
  const rows = lines.map(({ film, look }, index): Row => {
    const box = { ...plot, top: heads + index * apart };
    const name_y = (arrangement === "rows" ? box.top : writing.line * (index + 1)) - nameUp;
    const project = acrossProjection(view, films.chord, box, times, range);
    return { film, look, box, name_y, project, shakenNode: nodeAt(film, film.numbers.place_m) };
  });
  return { rows, height: heads + rowHeight + apart * (lines.length - 1) + footer, times, gap_m: films.chord.gap_m };
}

function trace(pen: CanvasRenderingContext2D, places: Float32Array, project: Project): void {
  pen.beginPath();
  for (let at = 0; at + 2 < places.length; at += coordinates) pen.lineTo(...project(places[at]!, places[at + 1]!, places[at + 2]!));
  pen.stroke();
}

const nodePoint = (places: Float32Array, node: number, project: Project): ScreenPoint => {
  const at = node * coordinates;
  return project(places[at] ?? 0, places[at + 1] ?? 0, places[at + 2] ?? 0);
};

const looks = {
  this: { main: 3, loop: 1, dash: [] as number[] },
  other: { main: 2, loop: 0.75, dash: [7, 4] },
};

function drawLine(pen: CanvasRenderingContext2D, ink: Ink, row: Row, time_s: number): void {
  const { film, look, project, shakenNode } = row;
  const at = time_s / film.frame_s;
  const main = momentOf(mainOf(film), at);
  const { main: thick, loop, dash } = looks[look];
  pen.lineJoin = "round";
  pen.setLineDash([]);
  pen.lineWidth = loop;
  pen.strokeStyle = look === "this" ? ink.backup : ink.other;
  trace(pen, momentOf(backupOf(film), at), project);
  pen.setLineDash(dash);
  pen.lineWidth = thick;
  pen.strokeStyle = look === "this" ? ink.main : ink.other;
  trace(pen, main, project);
  pen.setLineDash([]);
  for (const tape of film.tapes) drawTape(pen, ink, look, nodePoint(main, tape, project));
  drawShaken(pen, ink, nodePoint(main, shakenNode, project));
}

const tapeHalf = 2.5;
function drawTape(pen: CanvasRenderingContext2D, ink: Ink, look: Row["look"], [x, y]: ScreenPoint): void {
  pen.fillStyle = look === "this" ? ink.main : ink.paper;
  pen.strokeStyle = look === "this" ? ink.main : ink.other;
  pen.lineWidth = 1;
  pen.beginPath();
  pen.rect(x - tapeHalf, y - tapeHalf, 2 * tapeHalf, 2 * tapeHalf);
  pen.fill();
  pen.stroke();
}

const diamond = 7;
/** The shaken place: a diamond. */
function drawShaken(pen: CanvasRenderingContext2D, ink: Ink, [x, y]: ScreenPoint): void {
  pen.beginPath();
  pen.moveTo(x, y - diamond);
  pen.lineTo(x + diamond, y);
  pen.lineTo(x, y + diamond);
  pen.lineTo(x - diamond, y);
  pen.closePath();
  pen.fillStyle = ink.paper;
  pen.strokeStyle = ink.ink;
  pen.lineWidth = 2;
  pen.fill();
  pen.stroke();
}

function drawRest(pen: CanvasRenderingContext2D, ink: Ink, row: Row): void {
  pen.strokeStyle = ink.rule;
  pen.lineWidth = 0.75;
  pen.setLineDash([2, 4]);
  trace(pen, momentOf(mainOf(row.film), 0), row.project);
  pen.setLineDash([]);
}

function drawNames(pen: CanvasRenderingContext2D, ink: Ink, scene: ShakeScene, width: number, height: number): void {
  pen.textBaseline = "alphabetic";
  pen.fillStyle = ink.softInk;
  pen.textAlign = "right";
  pen.fillText("far anchor", width - plotMargin.right, height - footerUp);
  pen.textAlign = "left";
  pen.fillText("near anchor", plotMargin.left, height - footerUp);
  for (const { look, name_y } of scene.rows) {
    pen.fillStyle = look === "this" ? ink.main : ink.softInk;
    pen.fillText(`${lineNames[look]} (${look === "this" ? "solid" : "dashed"})`, plotMargin.left, name_y);
  }
}

/** Draws a moment. @param time_s from the start of the shake [s] */
export function drawShake({ pen, width, height, ink }: Drawing, scene: ShakeScene, time_s: number): void {
  for (const row of scene.rows) drawRest(pen, ink, row);
  // What is compared with lies below.
  for (const row of [...scene.rows].reverse()) drawLine(pen, ink, row, time_s);
  drawNames(pen, ink, scene, width, height);
}
