// A small button beside a number that says what the number is. One dialog serves all of them.
import { signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { terms, type Term } from "./terms";
import "./why.css";

const asked = signal<Term | null>(null);

/** "?" that opens the plain explanation of a number. */
export function Why({ of }: { of: Term }) {
  const ask = (event: MouseEvent): void => {
    event.preventDefault(); // beside a label or inside a summary only this is wanted
    event.stopPropagation();
    asked.value = of;
  };
  return (
    <button type="button" class="why" aria-label={terms[of].ask} aria-haspopup="dialog" onClick={ask}>
      <span aria-hidden="true">?</span>
    </button>
  );
}

/** The explanation that was asked for. Stands once on the page. */
export function WhyDialog() {
  const dialog = useRef<HTMLDialogElement>(null);
  const term = asked.value;
  useEffect(() => {
    if (term === null || !dialog.current || dialog.current.open) return;
    dialog.current.showModal();
    // Read from the top; the browser would go to the button at the end.
    dialog.current.querySelector("h2")?.focus();
    dialog.current.scrollTop = 0;
  }, [term]);
  const meaning = term === null ? null : terms[term];
  const close = (): void => dialog.current?.close();
  const closeBeside = (event: MouseEvent): void => {
    if (event.target === dialog.current) close();
  };
  return (
    <dialog ref={dialog} class="dialog" aria-labelledby="why-title" onClose={() => (asked.value = null)} onClick={closeBeside}>
      {meaning && (
        <div class="dialog-body">
          <h2 id="why-title" tabIndex={-1}>{meaning.ask}</h2>
          <p>{meaning.what}</p>
          <h3>How it is computed</h3>
          <p>{meaning.how}</p>
          <h3>What is good</h3>
          <p>{meaning.good}</p>
          <h3>What it cannot say</h3>
          <p>{meaning.limits}</p>
          <button type="button" class="button" onClick={close}>Close</button>
        </div>
      )}
    </dialog>
  );
}
