// Nothing plays where nobody sees it, and nothing stays of a rig that is gone.
import { effect, untracked } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { RefObject } from "preact";
import { opened } from "../state/rig";

/** Calls `close` when the <details> around an element is closed, and `leave` when the element goes. */
export function useLeaving<E extends HTMLElement>(close: () => void, leave: () => void): RefObject<E> {
  const place = useRef<E>(null);
  useEffect(() => {
    const around = place.current?.closest("details");
    const toggled = (): void => {
      if (!around?.open) close();
    };
    around?.addEventListener("toggle", toggled);
    return () => {
      around?.removeEventListener("toggle", toggled);
      leave();
    };
  }, []);
  return place;
}

/** Calls `forget` when another rig is opened. */
export function useOtherRig(forget: () => void): void {
  useEffect(() => {
    let last = opened.peek();
    return effect(() => {
      const now = opened.value;
      if (now === last) return;
      last = now;
      untracked(forget);
    });
  }, []);
}
