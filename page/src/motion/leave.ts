// Nothing plays where nobody sees it.
import { useEffect, useRef } from "preact/hooks";
import type { RefObject } from "preact";

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
