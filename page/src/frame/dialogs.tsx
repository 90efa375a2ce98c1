// The questions of opening and saving, each in the browser's own dialog.
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { RigFiles } from "../engine/api";
import { files, unsaved, view } from "../state/rig";
import { demos } from "./demos";
import { FileButton } from "./file_button";
import type { NamedText } from "./file_kinds";
import { askNext, openAsked, openNow, question, save, take, useCsv, type Question } from "./opening";

const close = (): void => void (question.value = null);

function Open() {
  return (
    <>
      <h2 id="ask-title">Open</h2>
      <p>A rig file (.toml), together with the CSV files that it names. You can also drop files on the page.</p>
      <FileButton class="button strong" many onFiles={(list) => void take(list)}>Choose files</FileButton>
      <h3>Open a demo (invented)</h3>
      <p>Places, webbings and numbers of the demos are invented. Do not rig from them.</p>
      <div class="stack">
        {demos.map((demo) => (
          <button key={demo.words} type="button" class="button" onClick={() => openAsked(demo.files)}>{demo.words}</button>
        ))}
      </div>
      <button type="button" class="button" onClick={close}>Cancel</button>
    </>
  );
}

function Unsaved({ next }: { next: RigFiles }) {
  const changed = [files.value, ...files.value.sides].filter((file) => unsaved.value.includes(file.name));
  const saveAndOpen = (): void => {
    changed.forEach(save);
    openNow(next);
  };
  return (
    <>
      <h2 id="ask-title">Changes are not saved</h2>
      <p>{changed.map((file) => file.name).join(" and ")}: changed and not saved. Opening {next.name} drops that.</p>
      <div class="stack">
        <button type="button" class="button strong" onClick={saveAndOpen}>Save, then open</button>
        <button type="button" class="button" onClick={() => openNow(next)}>Open and drop the changes</button>
        <button type="button" class="button" onClick={close}>Cancel</button>
      </div>
    </>
  );
}

function Save() {
  const isChanged = (name: string): boolean => unsaved.value.includes(name);
  return (
    <>
      <h2 id="ask-title">Save</h2>
      <p>The rig is these files. Keep them together in one folder.</p>
      <div class="stack">
        {[files.value, ...files.value.sides].map((file) => (
          <button key={file.name} type="button" class={isChanged(file.name) ? "button strong" : "button"} onClick={() => save(file)}>
            Save {file.name}{isChanged(file.name) ? " (changed)" : ""}
          </button>
        ))}
        <button type="button" class="button" onClick={close}>Close</button>
      </div>
    </>
  );
}

/** Names of the webbings that main and backup are made of. */
function webbings(): string[] {
  return [...new Set(view.value?.document.plan.lengths.map((piece) => piece.webbing) ?? [])];
}

const looks = {
  ground: "Its columns say that it is a ground.",
  curve: "Its columns say that it is the curve of a webbing.",
  unknown: "Its columns are neither those of a ground (distance, height) nor those of a curve (tension, stretch).",
} as const;

/** For webbings that neither main nor backup is made of, or before there is a plan. */
function OtherWebbing({ use }: { use: (webbing: string) => void }) {
  const name = useSignal("");
  const asked = (event: Event): void => {
    event.preventDefault();
    if (name.value.trim() !== "") use(name.value.trim());
  };
  return (
    <form class="ask-other" onSubmit={asked}>
      <label for="ask-webbing">Another webbing of the rig file, by its name</label>
      <input id="ask-webbing" type="text" autocomplete="off" autocapitalize="off" spellcheck={false}
        value={name.value} onInput={(event) => (name.value = event.currentTarget.value)} />
      <button type="submit" class="button">Use it as that curve</button>
    </form>
  );
}

function Csv({ csv, looksLike }: { csv: NamedText; looksLike: keyof typeof looks }) {
  const refused = useSignal("");
  const use = async (webbing: string | null): Promise<void> => {
    refused.value = await useCsv(csv, webbing);
    if (refused.value === "") askNext();
  };
  return (
    <>
      <h2 id="ask-title">What is {csv.name} for?</h2>
      <p>The rig file does not name {csv.name}. {looks[looksLike]}</p>
      <div class="stack">
        {looksLike !== "curve" && (
          <button type="button" class="button" onClick={() => void use(null)}>Use it as the ground</button>
        )}
        {looksLike !== "ground" && webbings().map((name) => (
          <button key={name} type="button" class="button" onClick={() => void use(name)}>Use it as the curve of {name}</button>
        ))}
        {looksLike !== "ground" && <OtherWebbing use={(name) => void use(name)} />}
        <button type="button" class="button" onClick={askNext}>Leave it out</button>
      </div>
      <p role="alert" class="refused">{refused.value}</p>
    </>
  );
}

function Asked({ asked }: { asked: Question }) {
  switch (asked.kind) {
    case "open": return <Open />;
    case "unsaved": return <Unsaved next={asked.next} />;
    case "save": return <Save />;
    case "csv": return <Csv key={asked.csv.name} csv={asked.csv} looksLike={asked.looksLike} />;
  }
}

/** Shows the question that is open. Stands once on the page. */
export function Dialogs() {
  const dialog = useRef<HTMLDialogElement>(null);
  const asked = question.value;
  useEffect(() => {
    const element = dialog.current;
    if (!element) return;
    if (asked && !element.open) element.showModal();
    if (!asked && element.open) element.close();
  }, [asked]);
  return (
    <dialog ref={dialog} class="dialog" aria-labelledby="ask-title" onClose={close}>
      {asked && <div class="dialog-body"><Asked asked={asked} /></div>}
    </dialog>
  );
}
