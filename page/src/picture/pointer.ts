// One pointer at a time on a drawing: a tap, or a drag once it has gone a few pixels.
const deadZone = 4; // [px]

/** Where a pointer is, across the drawing that it went down on [px]. */
interface Pointing {
  down: (x: number, event: PointerEvent) => void;
  /** Only after the dead zone. */
  drag: (x: number, from: number) => void;
  /** @param dragged false: a tap */
  up: (x: number, dragged: boolean, event: PointerEvent) => void;
  /** The browser took the pointer away, or Escape was pressed. */
  cancel: (dragged: boolean) => void;
}

interface Handlers {
  onPointerDown: (event: PointerEvent) => void;
  onPointerMove: (event: PointerEvent) => void;
  onPointerUp: (event: PointerEvent) => void;
  onPointerCancel: (event: PointerEvent) => void;
}

/** Handlers for an element inside of an <svg> whose left edge is the origin. Moves are told once a frame. */
export function pointing(to: Pointing): Handlers {
  let id: number | null = null;
  let from = 0;
  let left = 0;
  let dragged = false;
  let last = 0;
  let frame = 0;

  const escape = (event: KeyboardEvent): void => {
    if (event.key !== "Escape") return;
    event.preventDefault();
    end();
    to.cancel(dragged);
  };
  const end = (): void => {
    id = null;
    cancelAnimationFrame(frame);
    frame = 0;
    removeEventListener("keydown", escape, true);
  };
  const tell = (): void => {
    frame = 0;
    to.drag(last, from);
  };
  return {
    onPointerDown: (event) => {
      if (id !== null || event.button !== 0) return;
      const element = event.currentTarget as SVGElement;
      left = (element.ownerSVGElement ?? element).getBoundingClientRect().left;
      id = event.pointerId;
      from = last = event.clientX - left;
      dragged = false;
      element.setPointerCapture(id);
      addEventListener("keydown", escape, true);
      event.stopPropagation();
      to.down(from, event);
    },
    onPointerMove: (event) => {
      if (event.pointerId !== id) return;
      last = event.clientX - left;
      dragged ||= Math.abs(last - from) >= deadZone;
      if (dragged && frame === 0) frame = requestAnimationFrame(tell);
    },
    onPointerUp: (event) => {
      if (event.pointerId !== id) return;
      last = event.clientX - left;
      const was = dragged;
      end();
      if (was) to.drag(last, from);
      to.up(last, was, event);
    },
    onPointerCancel: (event) => {
      if (event.pointerId !== id) return;
      end();
      to.cancel(dragged);
    },
  };
}
