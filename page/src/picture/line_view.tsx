// The picture that rules the page: the gap, the line with its loops, what can be done with it, and the strips.
import type { JSX } from "preact";
import { useSignalEffect } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import "./line_view.css";
import { files, redoLabel, trouble, undoLabel, view } from "../state/rig";
import { Loops } from "./loops";
import { Overview } from "./overview";
import { width } from "./scales";
import { lookAfresh } from "./state";
import { Strips } from "./strips";
import { TapeBar } from "./tape_bar";
import { PinKeys } from "./tape_pins";
import { WalkerBar, WalkerWords } from "./walker_bar";

/** All drawings are as wide as the box that they stand in. */
function useWidth(): { current: HTMLDivElement | null } {
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const element = box.current;
    if (!element) return;
    width.value = element.clientWidth;
    const watch = new ResizeObserver(() => (width.value = element.clientWidth));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return box;
}

export function LineView(): JSX.Element {
  const box = useWidth();
  useSignalEffect(() => {
    void files.value;
    // Nothing to undo or to redo: another rig was opened.
    if (undoLabel.value === null && redoLabel.value === null) lookAfresh();
  });
  const there = view.value !== null;
  return (
    <section class="line-view" aria-label="The line">
      <div class="line-view-box" ref={box}>
        {there && width.value > 0 && (
          <>
            <Overview />
            <Loops />
            <WalkerWords />
            <TapeBar />
            <WalkerBar />
            <PinKeys />
            <Strips />
          </>
        )}
        {!there && <p class="line-view-wait">{trouble.value === "" ? "The line is being computed." : "There is no line to draw yet."}</p>}
      </div>
    </section>
  );
}
