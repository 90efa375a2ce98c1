// The rig file as text, with the CSV files beside it. What is typed becomes the rig when the hand rests.
import { useSignal } from "@preact/signals";
import type { EditorView } from "@codemirror/view";
import { useEffect, useRef } from "preact/hooks";
import type { RigFiles } from "../engine/api";
import { change, faults, files } from "../state/rig";
import { goToFault, lineEndOf, makeEditor, showFaults, showText, textOf } from "./editor_setup";
import { asked, FaultList } from "./fault_list";
import { redoStep, undoStep } from "./steps";
import "./rig_file.css";

const typingRest = 400; // [ms]

/** The text of one of the files; the rig's own if there is none of that name any more. */
function textNamed(all: RigFiles, name: string): string {
  return all.sides.find((side) => side.name === name)?.text ?? all.text;
}

function withTextNamed(all: RigFiles, name: string, text: string): RigFiles {
  if (!all.sides.some((side) => side.name === name)) return { ...all, text };
  return { ...all, sides: all.sides.map((side) => (side.name === name ? { name, text } : side)) };
}

/** An editor over one file at a time. @param shown the name of the file */
class FileEditor {
  private readonly view: EditorView;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(parent: HTMLElement, private readonly shown: () => string) {
    this.view = makeEditor(parent, "Text of the file", {
      typed: () => this.wait(),
      undo: () => this.step(undoStep),
      redo: () => this.step(redoStep),
    });
    // Whoever leaves the text to press a button means the text as it stands.
    parent.addEventListener("focusout", () => this.take());
  }

  /** Takes what is typed as a step of the page's history. */
  take(): void {
    if (this.timer === undefined) return;
    clearTimeout(this.timer);
    this.timer = undefined;
    const name = this.shown();
    const before = textNamed(files.value, name);
    const text = textOf(this.view.state.doc, lineEndOf(before));
    const label = name === files.value.name ? "editing the file" : `editing ${name}`;
    if (text !== before) change(withTextNamed(files.value, name, text), label);
  }

  /** Shows the file as it stands, unless somebody is typing. */
  follow(all: RigFiles, name: string): void {
    if (this.timer === undefined) showText(this.view, textNamed(all, name));
  }

  mark(): void {
    showFaults(this.view, faults.value.filter((fault) => fault.file === this.shown()));
  }

  goTo(fault: (typeof faults.value)[number]): void {
    goToFault(this.view, fault);
  }

  end(): void {
    this.take();
    this.view.destroy();
  }

  private wait(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.take(), typingRest);
  }

  private step(walk: () => void): void {
    this.take();
    walk();
  }
}

export function RigFile() {
  const place = useRef<HTMLDivElement>(null);
  const editor = useRef<FileEditor | null>(null);
  const shown = useSignal(files.value.name);
  const seen = useRef<typeof asked.value>(null);
  const all = [files.value.name, ...files.value.sides.map((side) => side.name)];
  const name = all.includes(shown.value) ? shown.value : files.value.name;
  const nameNow = useRef(name);
  nameNow.current = name;

  useEffect(() => {
    if (!place.current) return;
    const made = new FileEditor(place.current, () => nameNow.current);
    editor.current = made;
    return () => made.end();
  }, []);
  useEffect(() => editor.current?.follow(files.value, name), [files.value, name]);
  useEffect(() => editor.current?.mark(), [faults.value, files.value, name]);
  // A fault that somebody wants to see: first its file comes into the editor, then the caret goes there.
  useEffect(() => {
    const request = asked.value;
    if (!request || request === seen.current) return;
    if (request.fault.file !== name && all.includes(request.fault.file)) {
      show(request.fault.file);
      return;
    }
    seen.current = request;
    editor.current?.goTo(request.fault);
  }, [asked.value, name]);

  const show = (file: string): void => {
    editor.current?.take();
    shown.value = file;
  };
  return (
    <>
      <FaultList rigName={files.value.name} />
      {files.value.sides.length > 0 && (
        <label class="rig-file-choice">
          File{" "}
          <select value={name} onChange={(event) => show(event.currentTarget.value)}>
            {all.map((each) => <option key={each} value={each}>{each}</option>)}
          </select>
        </label>
      )}
      <div ref={place} class="rig-file" />
      <p class="hint">
        What you type becomes the rig when you pause. Every value carries its unit in quotes: tension = "4.5 kN". Tab leaves the
        text.
      </p>
    </>
  );
}
