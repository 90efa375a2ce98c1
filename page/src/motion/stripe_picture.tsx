// Place across, time down, shade for how far the main is from rest: drawn as the film comes to it.
import { useCallback, useMemo } from "preact/hooks";
import { scaleLinear } from "d3-scale";
import type { ShakeFilm } from "../engine/api";
import { Canvas, heightAt, writeOver, type Drawing, type Height } from "./canvas";
import { plotMargin } from "./chart_shape";
import { coordinates } from "./film_places";
import { writing } from "./ink";
import { shades, type Shades } from "./stripes";
import type { ShakeFilms } from "./shake_films";

interface Props {
  films: ShakeFilms;
  film: ShakeFilm;
  name: string;
  /** Displacement that is darkest, the same for all lines [m]. */
  greatest_m: number;
}

const columns = 240;
const margin = { top: 26, bottom: 8 };
const size: Height = { share: 0.3, least: 170, greatest: 300 };
const tickEvery = 45;
const white = 255;
const darkest = 235;

/** Shades as a picture of one point each. */
function pictureOf({ columns: wide, rows, values }: Shades): HTMLCanvasElement {
  const picture = document.createElement("canvas");
  picture.width = wide;
  picture.height = rows;
  const pen = picture.getContext("2d");
  if (!pen) return picture;
  const image = pen.createImageData(wide, rows);
  values.forEach((value, index) => {
    image.data.fill(Math.round(white - darkest * value), 4 * index, 4 * index + 3);
    image.data[4 * index + 3] = white;
  });
  pen.putImageData(image, 0, 0);
  return picture;
}

interface Plot {
  left: number;
  width: number;
  y: (time_s: number) => number;
}

function drawMeasured(drawing: Drawing, film: ShakeFilm, plot: Plot): void {
  const { pen, ink } = drawing;
  const { late_from_s, late_window_s } = film.numbers;
  pen.strokeStyle = ink.ink;
  pen.lineWidth = 1;
  pen.setLineDash([6, 3]);
  for (const time_s of [late_from_s, late_from_s + late_window_s]) {
    pen.beginPath();
    pen.moveTo(plot.left, plot.y(time_s));
    pen.lineTo(plot.left + plot.width, plot.y(time_s));
    pen.stroke();
  }
  pen.setLineDash([]);
  pen.textAlign = "right";
  pen.textBaseline = "middle";
  writeOver(drawing, "measured here", plot.left + plot.width - 4, plot.y(late_from_s + late_window_s / 2));
}

const mark = 5;
function drawTop({ pen, ink }: Drawing, { films, film }: Props, plot: Plot): void {
  const x = (place_m: number): number => plot.left + (plot.width * place_m) / films.chord.gap_m;
  pen.fillStyle = ink.main;
  for (const node of film.tapes) pen.fillRect(x(film.main[node * coordinates] ?? 0) - 1, margin.top - mark, 2, mark);
  const shaken = x(film.numbers.place_m);
  pen.fillStyle = ink.ink;
  pen.beginPath();
  pen.moveTo(shaken, margin.top);
  pen.lineTo(shaken - 2 * mark, margin.top - 2 * mark);
  pen.lineTo(shaken + 2 * mark, margin.top - 2 * mark);
  pen.fill();
}

function drawSides({ pen, ink, height }: Drawing, plot: Plot, length_s: number): void {
  pen.strokeStyle = ink.ink;
  pen.lineWidth = 1;
  pen.strokeRect(plot.left - 0.5, margin.top - 0.5, plot.width + 1, height - margin.top - margin.bottom + 1);
  pen.fillStyle = ink.ink;
  pen.textAlign = "right";
  pen.textBaseline = "middle";
  const ticks = scaleLinear([0, length_s], [0, 1]).ticks(Math.floor(height / tickEvery));
  for (const time_s of ticks) pen.fillText(`${time_s} s`, plot.left - 4, plot.y(time_s));
}

function drawAll(drawing: Drawing, props: Props, picture: HTMLCanvasElement): void {
  const { pen, width, height } = drawing;
  const { film, films } = props;
  const { player } = films;
  const deep = height - margin.top - margin.bottom;
  const plot: Plot = {
    left: plotMargin.left,
    width: width - plotMargin.left - plotMargin.right,
    y: (time_s) => margin.top + (deep * time_s) / player.length_s,
  };
  const shown = Math.min(film.frames, player.time_s.value / film.frame_s);
  if (shown > 0) {
    const down = plot.y(shown * film.frame_s) - margin.top;
    pen.drawImage(picture, 0, 0, columns, shown, plot.left, margin.top, plot.width, down);
  }
  drawSides(drawing, plot, player.length_s);
  if (player.length_s >= film.numbers.late_from_s + film.numbers.late_window_s) drawMeasured(drawing, film, plot);
  drawTop(drawing, props, plot);
}

/** One line's stripes. */
export function StripePicture(props: Props) {
  const { films, film, name, greatest_m } = props;
  const picture = useMemo(
    () => pictureOf(shades(film, films.shake.direction, films.chord.gap_m, greatest_m, columns)),
    [films, film, greatest_m],
  );
  const height = useCallback((width: number) => heightAt(size, width) + writing.line, []);
  const draw = useCallback((drawing: Drawing) => drawAll(drawing, props, picture), [films, film, picture]);
  const label =
    `${name}: the main over place and time. Place goes across from the near to the far anchor, time goes down to ` +
    `${films.player.length_s.toFixed(1)} seconds; the darker, the farther from rest.`;
  return (
    <figure class="shake-stripes">
      <figcaption>{name}</figcaption>
      <Canvas label={label} height={height} draw={draw} />
    </figure>
  );
}
