// A canvas as wide as its place and as sharp as the screen. It is drawn anew when a signal that the drawing reads
// changes, or its size; nothing else draws.
import { effect, useSignal, type Signal } from "@preact/signals";
import type { RefObject } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { inkAt, writing, type Ink } from "./ink";
import "./canvas.css";

/** What a picture takes of its width as height, within bounds [px]. */
export interface Height {
  share: number;
  least: number;
  greatest: number;
}

/** @returns the height at a width [px] */
export const heightAt = ({ share, least, greatest }: Height, width: number): number => Math.min(greatest, Math.max(least, share * width));

export interface Drawing {
  pen: CanvasRenderingContext2D;
  /** Size in points of the page [px]. */
  width: number;
  height: number;
  ink: Ink;
}

interface Props {
  /** What is to be seen, for those who do not see it. */
  label: string;
  /** Height that the drawing needs at a width [px]. */
  height: (width: number) => number;
  draw: (drawing: Drawing) => void;
}

/** The width of an element as it changes [px]; 0 while it is not shown. */
export function useWidth<E extends HTMLElement>(): { place: RefObject<E>; width: Signal<number> } {
  const place = useRef<E>(null);
  const width = useSignal(0);
  useEffect(() => {
    const element = place.current;
    if (!element) return;
    const observer = new ResizeObserver(() => (width.value = Math.floor(element.clientWidth)));
    observer.observe(element);
    width.value = Math.floor(element.clientWidth);
    return () => observer.disconnect();
  }, []);
  return { place, width };
}

/** Writes so that it can be read on light and dark; align and baseline are those of the pen. */
export function writeOver({ pen, ink }: Drawing, words: string, x: number, y: number): void {
  pen.lineWidth = 4;
  pen.strokeStyle = ink.paper;
  pen.lineJoin = "round";
  pen.strokeText(words, x, y);
  pen.fillStyle = ink.ink;
  pen.fillText(words, x, y);
}

function paint(canvas: HTMLCanvasElement, width: number, height: number, ink: Ink, draw: Props["draw"]): void {
  const sharp = window.devicePixelRatio || 1;
  const wide = Math.round(width * sharp);
  const high = Math.round(height * sharp);
  if (canvas.width !== wide || canvas.height !== high) {
    canvas.width = wide;
    canvas.height = high;
    canvas.style.height = `${height}px`;
  }
  const pen = canvas.getContext("2d");
  if (!pen) return;
  pen.setTransform(sharp, 0, 0, sharp, 0, 0);
  pen.clearRect(0, 0, width, height);
  pen.font = writing.font;
  draw({ pen, width, height, ink });
}

/** A drawing with a name. */
export function Canvas({ label, height, draw }: Props) {
  const { place, width } = useWidth<HTMLDivElement>();
  const canvas = useRef<HTMLCanvasElement>(null);
  useEffect(() => {
    const drawn = canvas.current;
    if (!drawn) return;
    const ink = inkAt(drawn);
    return effect(() => {
      const wide = width.value;
      if (wide > 0) paint(drawn, wide, Math.round(height(wide)), ink, draw);
    });
  }, [height, draw]);
  return (
    <div class="canvas" ref={place}>
      <canvas ref={canvas} role="img" aria-label={label} />
    </div>
  );
}
