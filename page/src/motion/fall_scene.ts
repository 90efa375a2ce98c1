// One moment of a fall on a canvas in true proportions: from the side, or along the line.
import type { PlanPicture } from "../engine/api";
import { shown, text } from "../words/format";
import { writeOver, type Drawing } from "./canvas";
import type { FallFilmed } from "./fall_films";
import { bodyAt, drawBody, drawLeash } from "./fall_figure";
import { groundUnder, isAfterHit } from "./fall_ground";
import { wayOf, widest_m, windowAt, type FallView } from "./fall_window";
import { holds } from "./fall_words";
import { backupOf, coordinates, mainOf, momentOf } from "./film_places";
import { writing } from "./ink";
import { trueProjection, type Project, type ScreenPoint, type Window } from "./projection";

/** Beside the line the ground is not known: seen along it, only a short piece of it is drawn. */
const knownBeside_m = 0.5;
function drawGroundBelow({ pen, ink }: Drawing, { film, picture }: FallFilmed, project: Project): void {
  const at_m = film.numbers.lowest_at_m;
  const under_m = at_m === null ? null : groundUnder(picture.ground, at_m);
  if (under_m === null) return;
  pen.strokeStyle = ink.ground;
  pen.lineWidth = 2.5;
  pen.beginPath();
  pen.moveTo(...project(0, -knownBeside_m, under_m));
  pen.lineTo(...project(0, knownBeside_m, under_m));
  pen.stroke();
}

function drawGround({ pen, ink }: Drawing, picture: PlanPicture, window: Window, project: Project): void {
  const { ground } = picture;
  if (ground.length < 4) return;
  pen.beginPath();
  for (let at = 0; at + 1 < ground.length; at += 2) pen.lineTo(...project(ground[at]!, 0, ground[at + 1]!));
  pen.strokeStyle = ink.ground;
  pen.lineWidth = 2.5;
  pen.stroke();
  const deep = Math.min(window.low_m, ...ground.filter((_, index) => index % 2 === 1)) - (window.high_m - window.low_m);
  pen.lineTo(...project(ground[ground.length - 2]!, 0, deep));
  pen.lineTo(...project(ground[0]!, 0, deep));
  pen.fillStyle = ink.shade;
  pen.globalCompositeOperation = "destination-over";
  pen.fill();
  pen.globalCompositeOperation = "source-over";
}

const edgeTick = 7;
const anchorHalf = 5;
function drawSite({ pen, ink }: Drawing, { picture, film }: FallFilmed, project: Project): void {
  const last = (film.main_nodes - 1) * coordinates;
  pen.fillStyle = ink.ink;
  for (const [x, z] of [[film.main[0]!, film.main[2]!], [film.main[last]!, film.main[last + 2]!]] as const) {
    const [px, py] = project(x, 0, z);
    pen.fillRect(px - anchorHalf, py - anchorHalf, 2 * anchorHalf, 2 * anchorHalf);
  }
  const edges = [picture.edge_near_m, picture.edge_far_m === null ? null : picture.gap_m - picture.edge_far_m];
  pen.strokeStyle = ink.ink;
  pen.lineWidth = 2;
  for (const edge_m of edges) {
    const under_m = edge_m === null ? null : groundUnder(picture.ground, edge_m);
    if (edge_m === null || under_m === null) continue;
    const [px, py] = project(edge_m, 0, under_m);
    pen.beginPath();
    pen.moveTo(px, py - edgeTick);
    pen.lineTo(px, py + edgeTick);
    pen.stroke();
  }
}

function trace(pen: CanvasRenderingContext2D, places: Float32Array, from: number, to: number, project: Project): void {
  pen.beginPath();
  for (let at = from * coordinates; at < to * coordinates; at += coordinates) pen.lineTo(...project(places[at]!, places[at + 1]!, places[at + 2]!));
  pen.stroke();
}

function drawLines({ pen, ink }: Drawing, { film }: FallFilmed, at: number, project: Project): void {
  pen.lineJoin = "round";
  pen.strokeStyle = ink.backup;
  pen.lineWidth = 1.5;
  trace(pen, momentOf(backupOf(film), at), 0, film.backup_nodes, project);
  const main = momentOf(mainOf(film), at);
  const cut = film.cut_after[Math.min(film.frames - 1, Math.round(at))] ?? film.main_nodes - 1;
  pen.strokeStyle = ink.main;
  pen.lineWidth = 3;
  trace(pen, main, 0, cut + 1, project);
  if (cut + 1 < film.main_nodes) trace(pen, main, cut + 1, film.main_nodes, project);
}

function dashed({ pen, ink }: Drawing, from: ScreenPoint, to: ScreenPoint): void {
  pen.strokeStyle = ink.ink;
  pen.lineWidth = 1;
  pen.setLineDash([5, 4]);
  pen.beginPath();
  pen.moveTo(...from);
  pen.lineTo(...to);
  pen.stroke();
  pen.setLineDash([]);
}

/** Lowest feet as a dashed line over the whole width. */
function drawLowest(drawing: Drawing, { film }: FallFilmed, project: Project): void {
  const at_m = film.numbers.lowest_at_m;
  if (at_m === null) return;
  const [, y] = project(at_m, 0, wayOf(film).feet_m);
  dashed(drawing, [0, y], [drawing.width, y]);
  if (drawing.width >= roomForWords) write(drawing, "lowest feet", edgeOfWords, y - writing.line, "left");
}

const crossHalf = 6;
/** In a smaller picture the words would lie on the line [px]. */
const roomForWords = 280;
/** The way left to the ground where it is least, or a cross where the feet hit it. */
function drawNearest(drawing: Drawing, filmed: FallFilmed, window: Window, project: Project): void {
  const { film, nearest } = filmed;
  if (!nearest || nearest.ground_m < window.low_m) return;
  const [x, ground_y] = project(nearest.at_m, 0, nearest.ground_m);
  const right = x < drawing.width / 2;
  const beside = x + (right ? besideWords : -besideWords);
  if (!nearest.meets) {
    if (!holds(filmed)) return;
    const [, feet_y] = project(nearest.at_m, 0, nearest.feet_m);
    dashed(drawing, [x, feet_y], [x, ground_y]);
    write(drawing, text(film.numbers.clearance_m, "length"), beside, (feet_y + ground_y - writing.line) / 2, right ? "left" : "right");
    return;
  }
  const { pen, ink } = drawing;
  pen.strokeStyle = ink.stop;
  pen.lineWidth = 3;
  for (const way of [1, -1]) {
    pen.beginPath();
    pen.moveTo(x - crossHalf, ground_y - way * crossHalf);
    pen.lineTo(x + crossHalf, ground_y + way * crossHalf);
    pen.stroke();
  }
  if (drawing.width < roomForWords) return;
  write(drawing, `hits the ground, ${text(nearest.time_s, "time")}`, beside, ground_y - writing.line, right ? "left" : "right");
}

const edgeOfWords = 8;
const besideWords = 7;
function write(drawing: Drawing, words: string, x: number, y: number, align: CanvasTextAlign): void {
  drawing.pen.textAlign = align;
  drawing.pen.textBaseline = "top";
  writeOver(drawing, words, x, y);
}

/** What is left to see of what means nothing. */
const veil = 0.72;
function drawVeil(drawing: Drawing): void {
  const { pen, ink, width, height } = drawing;
  pen.globalAlpha = veil;
  pen.fillStyle = ink.shade;
  pen.fillRect(0, 0, width, height);
  pen.globalAlpha = 1;
  if (width >= roomForWords) write(drawing, "After the hit: means nothing", edgeOfWords, 2 * writing.line, "left");
}

/** Lengths that a scale is easily read by, in the units shown. */
const scaleSteps = [0.5, 1, 2, 5, 10, 20, 50];
const scaleAtLeast = 50;
/** How long a metre, or some feet, are here. */
function drawScale({ pen, ink, width }: Drawing, window: Window, perMetre: number): void {
  const { factor, unit } = shown("length");
  const perUnit = perMetre / factor;
  const step = scaleSteps.find((each) => each * perUnit >= scaleAtLeast) ?? scaleSteps[scaleSteps.length - 1]!;
  // Where both anchors are to be seen the corners are theirs.
  const wide = window.to_m - window.from_m > widest_m;
  const right = wide ? (width + step * perUnit) / 2 : width - 10;
  pen.fillStyle = ink.ink;
  pen.fillRect(right - step * perUnit, 10, step * perUnit, 3);
  pen.textAlign = "right";
  pen.textBaseline = "top";
  pen.fillText(`${step}\u00a0${unit}`, right, 16);
}

/** Draws a moment. @param time_s since it began [s] */
export function drawFall(drawing: Drawing, filmed: FallFilmed, view: FallView, time_s: number): void {
  const { width, height } = drawing;
  const { film } = filmed;
  const at = time_s / film.frame_s;
  const body = bodyAt(film, at);
  const window = windowAt(view, body.hip.x);
  const { project, perMetre } = trueProjection(window, { left: 0, top: 0, width, height });
  if (window.seen === "from the side") {
    drawGround(drawing, filmed.picture, window, project);
    drawSite(drawing, filmed, project);
  } else {
    drawGroundBelow(drawing, filmed, project);
  }
  if (holds(filmed)) drawLowest(drawing, filmed, project);
  drawLines(drawing, filmed, at, project);
  drawLeash(drawing, film, body, project);
  drawBody(drawing, film.foot_to_hip_m, body, project, perMetre);
  if (isAfterHit(filmed.nearest, time_s)) drawVeil(drawing);
  if (window.seen === "from the side") drawNearest(drawing, filmed, window, project);
  drawScale(drawing, window, perMetre);
}
