// A part of the page that opens and closes. What stands in it is made when it is opened first, and then stays.
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import "./section.css";

interface Asked {
  id: string;
  title: string;
  /** What the summary tells while it is closed. */
  brief?: ComponentChildren;
  startsOpen?: boolean;
  onFirstOpen?: () => void;
  children: () => ComponentChildren;
}

export function Section({ id, title, brief, startsOpen = false, onFirstOpen, children }: Asked) {
  const wasOpened = useSignal(startsOpen);
  const toggled = (event: Event): void => {
    if (wasOpened.value || !(event.currentTarget as HTMLDetailsElement).open) return;
    wasOpened.value = true;
    onFirstOpen?.();
  };
  return (
    <details id={id} class="section" open={startsOpen} onToggle={toggled}>
      <summary class="section-summary">
        <h2>{title}</h2>
        {brief !== undefined && <span class="section-brief">{brief}</span>}
      </summary>
      <div class="section-body">{wasOpened.value && children()}</div>
    </details>
  );
}

const madeAfter = 150; // [ms]

/** Opens a section and goes to it. @param id of the section */
export function goTo(id: string): void {
  const element = document.getElementById(id);
  if (!(element instanceof HTMLDetailsElement)) return;
  const scroll = (): void => element.scrollIntoView({ block: "start" });
  element.open = true;
  scroll();
  // What stands in it may be made only now, and without it the page may be too short to bring it to the top.
  setTimeout(scroll, madeAfter);
  element.querySelector("summary")?.focus({ preventScroll: true });
}

/** A link to a section that also opens it. */
export function SectionLink({ to, class: look, children }: { to: string; class?: string; children: ComponentChildren }) {
  const go = (event: MouseEvent): void => {
    event.preventDefault();
    goTo(to);
  };
  return <a href={`#${to}`} class={look} onClick={go}>{children}</a>;
}
